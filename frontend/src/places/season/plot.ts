/** A crop's outlook as shapes in a box of WIDTH by HEIGHT, all crops on the same days. Pure. */
import { area, line } from 'd3-shape';
import type { Band } from '../shared/sheet_fields';
import { day_after, type CropOutlook } from './outlook';

export const WIDTH = 354;
export const HEIGHT = 84;
const LEAST_DAYS = 56;
const DAY_MS = 86_400_000;

/** The days all plots of a page show. */
export interface Span {
  readonly from: string;
  readonly days: number;
}
export interface Shapes {
  readonly band: string;
  readonly likeliest: string;
  /** Undefined where it is not within the days shown. */
  readonly harvest: number | undefined;
}

const days_to = (from: string, day: string): number =>
  Math.round((Date.parse(day) - Date.parse(from)) / DAY_MS);

/** From the oldest sheet's day until the last crop is gone and the last new harvest in, as far as the sheets tell. */
export function span_of(crops: readonly CropOutlook[]): Span {
  const from = crops.reduce((least, one) => (one.day < least ? one.day : least), crops[0]?.day ?? '');
  const ends = crops.map((one) => {
    const told = (one.weeks.length - 1) * 7;
    const wanted = Math.max(one.reach?.[2] ?? told, one.harvest ? days_to(one.day, one.harvest.day) + 7 : 0);
    return days_to(from, one.day) + Math.min(told, wanted);
  });
  return { from, days: Math.max(LEAST_DAYS, ...ends) };
}

/** First days of months and how far along they are, 0 to 1; every second one where they would crowd. */
export function months_of({ from, days }: Span): readonly { readonly day: string; readonly at: number }[] {
  const all = Array.from({ length: days }, (_, i) => ({ day: day_after(from, i + 1), at: (i + 1) / days }));
  const months = all.filter(({ day, at }) => day.endsWith('-01') && at > 0.24 && at < 0.95);
  return months.filter((_, i) => months.length < 6 || i % 2 === 0);
}

export function shapes_of(crop: CropOutlook, span: Span): Shapes {
  const offset = days_to(span.from, crop.day);
  const most = Math.max(1, ...crop.weeks.map((week) => week[2]));
  const x = (days: number): number => ((offset + days) / span.days) * WIDTH;
  const y = (grams: number): number => HEIGHT * (1 - grams / most);
  const shown = crop.weeks.map((week, i) => ({ week, x: x(i * 7) })).filter((one) => one.x <= WIDTH + 7);
  const at = crop.harvest && x(days_to(crop.day, crop.harvest.day));
  type Point = { readonly week: Band; readonly x: number };
  const band = area<Point>(
    (p) => p.x,
    (p) => y(p.week[0]),
    (p) => y(p.week[2]),
  );
  const likeliest = line<Point>(
    (p) => p.x,
    (p) => y(p.week[1]),
  );
  return {
    band: band(shown) ?? '',
    likeliest: likeliest(shown) ?? '',
    harvest: at !== undefined && at <= WIDTH ? at : undefined,
  };
}
