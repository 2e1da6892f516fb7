/** What a walk did, row by row, in words. Reactive: reads `house` and the words. */
import { figures, words as shell } from '../../words';
import { rounds_words } from '../../words/rounds';
import { house } from '../shared/house.svelte';
import { capital, crop_name, short_lot_name } from '../shared/lot_words';
import { group_name, person_name, who } from '../shared/names';
import { DIALS, type DialName } from './air';
import { finding_words } from './footing';
import { dayWords } from './home_words';
import type { Deed, FindingCount, Summary, WentTo } from './summary';
import type { Walk } from './draft';

export interface DeedWords {
  readonly margin: string;
  readonly title: string;
  readonly soft: string;
  readonly amount: string;
}

const n = (pieces: number): string => figures().pieces(pieces);
const named = (id: string): string => {
  const lot = house.lot(id);
  return lot ? short_lot_name(lot) : '';
};
const counts = (findings: readonly FindingCount[]): string =>
  findings
    .map(({ finding, pieces }) =>
      pieces === undefined ? finding_words(finding) : `${n(pieces)} ${finding_words(finding)}`,
    )
    .join(', ');

function airWords(reading: Extract<Deed, { deed: 'air' }>['reading']): string {
  const words = rounds_words().summary;
  const { temp, percent } = figures();
  const said: Readonly<Record<DialName, (value: number) => string>> = {
    temp_c: temp,
    rh_pct: percent,
    low_c: (value) => words.coldest(temp(value)),
    high_c: (value) => words.warmest(temp(value)),
  };
  return capital(
    DIALS.map((dial) => {
      const value = reading[dial];
      return value === undefined ? words.not_read[dial] : said[dial](value);
    }).join(', '),
  );
}

function freedWords(id: string): string {
  const words = rounds_words().summary;
  const pack = house.lot(id)?.pack;
  return pack ? words.freed(rounds_words().small(house.reference.pack_name(pack))) : words.freed_space;
}

/** One row: what it is about stands in the margin. */
export function deedWords(deed: Deed): DeedWords {
  const words = rounds_words().summary;
  const margin = words.margin[deed.deed];
  if (deed.deed === 'air') return { margin, title: '', soft: airWords(deed.reading), amount: '' };
  const row = { margin, title: named(deed.lot), amount: '' };
  switch (deed.deed) {
    case 'out':
    case 'trim':
    case 'left':
      return { ...row, soft: counts(deed.findings), amount: deed.pieces > 0 ? n(deed.pieces) : '' };
    case 'held':
    case 'set_apart':
      return {
        ...row,
        soft: deed.photographed ? words.suspect_photo : words.suspect,
        amount: n(deed.pieces),
      };
    case 'decided':
      return { ...row, soft: words.decided(rounds_words().suspect.do_words[deed.decision.do]) };
    case 'not_looked':
      return { ...row, soft: words.not_looked(rounds_words().not_looked.why[deed.why] ?? '') };
    case 'freed':
      return { ...row, soft: freedWords(deed.lot) };
    case 'pick_over':
      return { ...row, soft: words.pick_over(dayWords(deed.day), capital(who(deed.who))) };
  }
}

/** "Hens: the pail", "Kitchen basket: 2 celery, 2 carrot". */
export function wentWords({ step, animals, of }: WentTo): string {
  const words = rounds_words().summary;
  const place = animals ? words.pail_of(group_name(animals)) : words.baskets[step];
  const what = of
    .filter(({ crop }) => crop !== '')
    .map(({ crop, pieces }) =>
      pieces === undefined ? crop_name(crop) : `${n(pieces)} × ${crop_name(crop)}`,
    );
  return what.length > 0 ? `${place}: ${what.join(', ')}` : place;
}

/** "5 pieces out of 137."; of what was gone over by the net without a number. */
function outWords({ looked, out }: Summary): string {
  const words = rounds_words().summary;
  if (looked === 0) return '';
  if (looked === undefined) return out > 0 ? words.out_n(n(out), out) : words.none_out;
  return out > 0 ? words.out_of(n(out), n(looked), out) : words.nothing_out(n(looked));
}

function whoWalked(walk: Walk): string {
  const { who_walked } = rounds_words().summary;
  const others = walk.with.map(person_name);
  if (walk.writer === house.writer_id)
    return others.length > 0 ? who_walked.you_and(figures().list(others)) : who_walked.you;
  const writer = person_name(walk.writer);
  return others.length > 0 ? who_walked.several(figures().list([writer, ...others])) : who_walked.one(writer);
}

export function leadSentence(summary: Summary, walk: Walk): string {
  const words = rounds_words().summary;
  if (summary.walked === 0) return words.nothing;
  const lead = words.lead(summary.walked, summary.minutes, whoWalked(walk));
  return [lead, outWords(summary)].filter(Boolean).join(' ');
}

/** What of all this phone holds is still to be sent. */
export function queuedWords(): string {
  const words = rounds_words().summary;
  const { to_send, photos_to_send } = house.status;
  if (to_send === 0 && photos_to_send === 0) return words.all_sent;
  const photos = shell().amounts.photos(photos_to_send);
  const queued =
    to_send === 0
      ? words.queued_entries(photos)
      : photos_to_send === 0
        ? words.queued_entries(words.entries(to_send))
        : words.queued(words.entries(to_send), photos);
  return `${queued} ${words.they_go}`;
}
