/** The life of a lot as lines of a ruled page. Reactive through `house`. */
import type { LotState, PastEntry } from '../../storekeeping/state';
import { figures, words } from '../../words';
import { store_words } from '../../words/store';
import type { Line } from '../../ledger';
import { house } from '../shared/house.svelte';
import { capital } from '../shared/lot_words';
import { person_name } from '../shared/names';
import { text } from '../shared/records';
import { say } from '../shared/say';

export interface LifeRow {
  readonly id: string;
  readonly margin: readonly string[];
  readonly title: string;
  readonly soft: string;
  readonly amount: string;
  readonly struck: boolean;
  readonly photo: string | undefined;
}

/** Who and with whom, as names. */
export function people_of(line: Line): string {
  const { person, with: others } = line.written;
  return [person, ...(others ?? [])].map(person_name).join(', ');
}

export function struck_words(past: PastEntry): string {
  const strike = past.struck_by ? house.lines.get(past.struck_by) : undefined;
  if (!strike) return '';
  return store_words().lot.struck_by(person_name(strike.written.person), text(strike.written.body['why']));
}

function row(past: PastEntry): LifeRow | undefined {
  const line = house.lines.get(past.id);
  if (!line) return undefined;
  const said = say(line.written);
  const { short_day, time } = figures();
  const at = new Date(past.when_ms);
  const clock = line.written.dated === 'clock' ? [time(at)] : [];
  const flags = past.flags.includes('clock') ? store_words().lot.clock : '';
  return {
    id: past.id,
    margin: [short_day(past.day), ...clock],
    title: [said.verb, line.written.kind === 'inspection' ? said.amount : ''].filter(Boolean).join(' '),
    soft: [said.detail, past.counts ? people_of(line) : struck_words(past) || people_of(line), flags]
      .filter(Boolean)
      .join('. '),
    amount: line.written.kind === 'inspection' ? '' : said.amount,
    struck: !past.counts,
    photo: past.photos[0],
  };
}

/** Newest first. */
export const life_rows = (lot: LotState): readonly LifeRow[] =>
  [...lot.history]
    .reverse()
    .map(row)
    .filter((one) => one !== undefined);

export interface Seen {
  readonly hash: string;
  readonly alt: string;
  readonly caption: string;
  readonly strong: string;
}

/** The lot's first and last photo that count, with words made from the day and what was seen. */
export function first_and_last(lot: LotState): { first?: Seen; last?: Seen; between: number } {
  const with_photos = lot.history.filter((past) => past.counts && past.photos.length > 0);
  const all = with_photos.flatMap((past) => past.photos.map((hash) => ({ hash, past })));
  const seen = (at: (typeof all)[number] | undefined, strong: string): Seen | undefined => {
    const line = at && house.lines.get(at.past.id);
    if (!at || !line) return undefined;
    const said = say(line.written);
    const day = figures().day(at.past.day);
    const alt = `${day}: ${[said.verb, said.detail].filter(Boolean).join(', ')}`;
    return { hash: at.hash, alt, caption: day, strong };
  };
  const words_of = store_words().lot;
  const first = seen(all[0], words_of.first);
  const last = all.length > 1 ? seen(all.at(-1), words_of.last) : undefined;
  return {
    ...(first ? { first } : {}),
    ...(last ? { last } : {}),
    between: Math.max(0, all.length - 2),
  };
}

/** "White wool, on 3 of 30 looked at". */
export const standing_words = (lot: LotState): readonly string[] =>
  lot.standing.map(({ finding, pieces, looked }) => {
    const name = capital(house.reference.finding_name(finding));
    return pieces === null || looked === null
      ? name
      : store_words().lot.seen(name, figures().pieces(pieces), figures().pieces(looked));
  });

export const age_words = (lot: LotState): string =>
  words().amounts.days(figures().days_between(lot.put_away_day, house.today));
