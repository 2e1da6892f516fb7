/** Days as `2026-11-25`, reckoned without a zone. */
const DAY_MS = 86_400_000;
/** A month as the tables of keeping count it. */
export const DAYS_A_MONTH = 30.4;

export const day_after = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T12:00:00Z`) + Math.floor(days) * DAY_MS).toISOString().slice(0, 10);
