/** A room's air and what it does to its lots, in sentences. Reactive through `words` and `house`. */
import type { BodyOf } from '../../storekeeping/shapes';
import { figures } from '../../words';
import { rooms_words } from '../../words/rooms';
import { house } from '../shared/house.svelte';
import { crop_name, short_lot_name } from '../shared/lot_words';
import { space_name } from '../shared/names';
import type { Drying, Frost, Room, Rooms } from './rooms_sheet';

const lot_words = (id: string): string => {
  const lot = house.lot(id);
  return lot ? short_lot_name(lot) : '';
};
const temp = (c: number): string => figures().temp(c);
const names = (rooms: readonly Room[]): string => figures().list(rooms.map(({ space }) => space_name(space)));

/** "2.5 °C, 93 %". */
export const reading_words = (read: BodyOf<'reading'> | undefined): string =>
  [
    read?.temp_c === undefined ? '' : temp(read.temp_c),
    read?.rh_pct === undefined ? '' : figures().percent(read.rh_pct),
  ]
    .filter(Boolean)
    .join(', ');

/** Words of the last reading that are not right, the worst first. */
const AMISS = ['near_frost', 'thaws', 'warm', 'cold', 'damp', 'dry'] as const;
/** A lot that turns limp within so long is told at once. [days] */
const SOON_DAYS = 42;

/** The page's first sentence. */
export function lead_words({ rooms, outside }: Rooms): string {
  const w = rooms_words();
  const open = rooms.filter((room) => room.vent?.open);
  if (open.length) return w.open_these(names(open));
  if (outside && rooms.some((room) => room.vent?.why === 'frost')) return w.open_nothing_frost;
  if (outside && rooms.some((room) => room.vent)) return w.open_nothing;
  const amiss = AMISS.flatMap((word) => {
    const these = rooms.filter((room) => room.word === word);
    return these.length ? [w.these(w.not_right[word] ?? '', names(these))] : [];
  });
  return amiss.join(' ') || w.all_right;
}

/** Where nobody read the air outside: at which air opening would help. */
export const helps_words = (room: Room): string =>
  room.outside_helps
    ? rooms_words().outside_helps(
        space_name(room.space),
        temp(room.outside_helps[0]),
        temp(room.outside_helps[1]),
      )
    : '';

export function vent_words({ vent }: Room): string {
  if (!vent) return '';
  return rooms_words().vent[vent.why]?.(figures().percent(vent.becomes_pct), temp(vent.shut_at_c)) ?? '';
}

/** "It may come down to −0.5 °C (−1.5 to 0.5 °C). Apples freeze at −1.5 °C." */
export function frost_words(frost: Frost, room: Room): string {
  const w = rooms_words();
  const [low, middle, high] = frost.lowest_c;
  const crop = room.wanted?.freezes_first;
  return [
    w.frost_lowest(temp(middle), temp(low), temp(high)),
    crop && room.wanted ? w.freezes(crop_name(crop), temp(room.wanted.freezing_c)) : '',
    frost.by_outside ? '' : w.by_readings,
    w.frost_do,
  ]
    .filter(Boolean)
    .join(' ');
}

/** The room's own word, and what is odd there. */
export function air_words(room: Room): string {
  const w = rooms_words();
  return [
    w.word[room.word] ?? '',
    room.wanted?.crossed ? w.crossed : '',
    room.stuck_days ? w.stuck(room.stuck_days) : '',
    room.amiss ? w.amiss(room.amiss) : '',
  ]
    .filter(Boolean)
    .join(' ');
}

/** How warm it likely was, and what its air would wet. */
export function likely_words(room: Room): string {
  const w = rooms_words();
  return [
    room.week ? w.week(temp(room.week[0]), temp(room.week[2])) : '',
    room.last?.dew_c === undefined ? '' : w.dew(temp(room.last.dew_c)),
  ]
    .filter(Boolean)
    .join(' ');
}

/** What it costs the lots, each a line: keeping, cold, neighbours, and water where it soon shows. */
export function toll_words(room: Room, today: string): readonly string[] {
  const w = rooms_words();
  return [
    ...costs_words(room),
    ...room.chilled.map(({ lot, below_c, hurt }) =>
      (hurt === 'surely' ? w.chilled_surely : w.chilled_may)(lot_words(lot), temp(below_c)),
    ),
    neighbours_words(room),
    ...room.drying.filter((one) => is_soon(one, today)).map(drying_words),
  ].filter(Boolean);
}

/** Lots that dry, but not soon. */
export const later_words = (room: Room, today: string): readonly string[] =>
  room.drying
    .filter((one) => !is_soon(one, today))
    .map(drying_words)
    .filter(Boolean);

const is_soon = ({ feels, limp_on: [, likely] }: Drying, today: string): boolean =>
  feels !== 'firm' || (likely !== '' && figures().days_between(today, likely) <= SOON_DAYS);

/** All crops that a better room would keep longer, together: their likeliest on average, and from least to most. */
function costs_words({ costs }: Room): readonly string[] {
  const days = (n: number): string => figures().number(n, n < 3 ? 1 : 0);
  return [...new Set(costs.map(({ best }) => best))].map((best) => {
    const these = costs.filter((one) => one.best === best);
    const [low, middle, high] = [
      Math.min(...these.map((one) => one.days[0])),
      these.reduce((sum, one) => sum + one.days[1], 0) / these.length,
      Math.max(...these.map((one) => one.days[2])),
    ];
    const crops = figures().list(these.map(({ crop }) => crop_name(crop)));
    return rooms_words().costs(crops, days(middle), days(low), days(high), space_name(best));
  });
}

function neighbours_words({ neighbours }: Room): string {
  const named = (crops: readonly string[]): string => figures().list([...new Set(crops)].map(crop_name));
  if (!neighbours.length) return '';
  const [gives, suffers] = [neighbours.map((one) => one.gives), neighbours.map((one) => one.suffers)];
  return rooms_words().neighbours(named(gives), named(suffers));
}

/** A lot that left the household since has no name any more, and no line. */
function drying_words({ lot, feels, limp_on: [soon, , late] }: Drying): string {
  const w = rooms_words();
  const name = lot_words(lot);
  if (!name) return '';
  if (feels === 'limp or wrinkled') return w.limp_now(name);
  const day = (when: string): string => (when ? figures().short_day(when) : w.later);
  return (feels === 'softening' ? w.softening : w.limp_on)(name, day(soon), day(late));
}
