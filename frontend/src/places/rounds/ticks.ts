/** Which findings are offered as ticks for a crop, in which order. Pure. */
import type { LookFor } from '../../reference/index.ts';

/** What can befall anything that is not packed away in glass or ice; the broad words serve who can't tell closer. */
const COMMON = ['rot', 'mould', 'shrivelled', 'sprouting', 'gnawed', 'frosted', 'insect', 'bruise'] as const;
/** What nothing sealed is asked about: it is never opened, sniffed or tasted to find out. */
const SEALED: Readonly<Record<string, readonly string[]>> = {
  jar: ['lid_up', 'working', 'mould'],
  ferment: ['mould', 'off_smell'],
  frozen: ['thawed'],
  dried: ['wet', 'mould', 'insect'],
};

/** What shows itself only once a jar, bag or tin is open: nobody opens one on a round to find out. */
const OPENED = new Set(['off_smell']);
const SHUT = new Set(['jar', 'frozen', 'dried']);

/** Look-fors that can be seen as the crop stands. */
export const inSight = (crop: string, look_fors: readonly LookFor[]): readonly LookFor[] =>
  SHUT.has(crop) ? look_fors.filter(({ finding }) => !OPENED.has(finding)) : look_fors;

const URGENCY = { now: 0, days: 1, weeks: 2, note: 3 } as const;

/** Mice come to anything that is not sealed, and their marks stand always to hand: the neighbours are warned of them. */
export const MICE = 'gnawed';

/** As many as are shown before "others". */
export const SHOWN = 9;

/** Look-fors by urgency, as the table has them within it. */
export const byUrgency = (look_fors: readonly LookFor[]): readonly LookFor[] =>
  [...look_fors].sort((a, b) => URGENCY[a.urgency] - URGENCY[b.urgency]);

/**
 * Ticks for what was seen: the crop's own first, then what is common; `unsure` ("can't say") closes them. What is
 * ticked already is always among them.
 */
export function ticksFor(
  crop: string,
  look_fors: readonly LookFor[],
  ticked: readonly string[] = [],
): readonly string[] {
  const own = byUrgency(inSight(crop, look_fors)).map(({ finding }) => finding);
  const common = SEALED[crop] ?? COMMON;
  const all = [...new Set([...own, ...common])];
  const mice = crop in SEALED ? [] : [MICE];
  const shown = new Set([...all.slice(0, SHOWN), ...mice, ...ticked]);
  shown.delete('unsure');
  return [...[...new Set([...all, ...ticked])].filter((finding) => shown.has(finding)), 'unsure'];
}

/** What may make one unsure: the crop's own, a smell where nothing is sealed, and "can't say". */
export function doubtsFor(
  crop: string,
  look_fors: readonly LookFor[],
  ticked: readonly string[] = [],
): readonly string[] {
  const own = ticksFor(crop, look_fors, ticked).filter((finding) => finding !== 'unsure');
  const smells = crop in SEALED || own.includes('off_smell') ? [] : ['off_smell'];
  return [...own, ...smells, 'unsure'];
}

/** How many look-fors stand on a lot's page; the rest is behind "more". */
export const LOOK_FORS_SHOWN = 3;

/** In glass or ice: nothing of it is opened or tasted to find out. */
export const isSealed = (crop: string): boolean => crop in SEALED;
