/** The page that finding was opened from, carried in the address so that the way back leads there. */
const HOME = '/store';

export const find_href = (from: string): string =>
  from.startsWith('/find') ? '#/find' : `#/find?from=${encodeURIComponent(from)}`;

/** Only a path of our own: an address that somebody made up leads to the store. */
export function came_from(query: string | undefined): string {
  const from = new URLSearchParams(query ?? '').get('from') ?? HOME;
  return /^\/[a-z]/.test(from) ? from : HOME;
}
