/** A room's air and what it does to its lots, in sentences. Reactive through `words` and `house`. */
import type { BodyOf } from '../../storekeeping/shapes';
import { figures } from '../../words';
import { rooms_words } from '../../words/rooms';
import { house } from '../shared/house.svelte';
import { capital, crop_name, short_lot_name } from '../shared/lot_words';
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

/** Words of the last reading that are not right. */
const AMISS = new Set(['warm', 'cold', 'damp', 'dry', 'near_frost']);

/** The page's first sentence. */
export function lead_words({ rooms, outside }: Rooms): string {
  const w = rooms_words();
  const open = rooms.filter((room) => room.vent?.open);
  if (open.length) return w.open_these(names(open));
  if (outside && rooms.some((room) => room.vent?.why === 'frost')) return w.open_nothing_frost;
  if (outside && rooms.some((room) => room.vent)) return w.open_nothing;
  const amiss = rooms.filter((room) => AMISS.has(room.word));
  return amiss.length ? w.not_right(names(amiss)) : w.all_right;
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
    crop && room.wanted ? w.freezes(capital(crop_name(crop)), temp(room.wanted.freezing_c)) : '',
    frost.by_outside ? '' : w.by_readings,
    w.frost_do,
  ]
    .filter(Boolean)
    .join(' ');
}

/** The room's own word, and how warm it was likely. */
export function air_words(room: Room): string {
  const w = rooms_words();
  return [
    w.word[room.word] ?? '',
    room.wanted?.crossed ? w.crossed : '',
    room.week ? w.week(temp(room.week[0]), temp(room.week[2])) : '',
    room.last?.dew_c === undefined ? '' : w.dew(temp(room.last.dew_c)),
    room.stuck_days ? w.stuck(room.stuck_days) : '',
    room.amiss ? w.amiss(room.amiss) : '',
  ]
    .filter(Boolean)
    .join(' ');
}

/** What it costs the lots, each a line: keeping, cold, water, neighbours. */
export function toll_words(room: Room): readonly string[] {
  const w = rooms_words();
  const days = (n: number): string => figures().number(n, n < 3 ? 1 : 0);
  return [
    ...room.costs.map(({ crop, best, days: [low, middle, high] }) =>
      w.costs(capital(crop_name(crop)), days(middle), days(low), days(high), space_name(best)),
    ),
    ...room.chilled.map(({ lot, below_c, hurt }) =>
      (hurt === 'surely' ? w.chilled_surely : w.chilled_may)(lot_words(lot), temp(below_c)),
    ),
    ...room.drying.map(drying_words),
    ...room.neighbours.map(({ gives, suffers }) => w.neighbours(crop_name(gives), crop_name(suffers))),
  ].filter(Boolean);
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
