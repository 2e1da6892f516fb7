/** What happened, for people: one line of the ledger as a verb, a thing, a detail and an amount. */
import type { Written } from '../../ledger';
import type { BodyOf, Kind, OutBody, WentBody } from '../../storekeeping/shapes';
import { figures, tongue } from '../../words';
import { kind_words } from '../../words/kinds';
import { entry_amount, pieces_words } from './amounts';
import { house } from './house.svelte';
import { capital, crop_name, lot_name } from './lot_words';
import { group_name, record_name, space_name } from './names';
import { text } from './records';

export interface Said {
  readonly verb: string;
  /** The lot, the space, the group. */
  readonly thing: string;
  readonly detail: string;
  readonly amount: string;
}

const joined = (...words: readonly (string | undefined)[]): string => words.filter(Boolean).join(', ');

const lot_words = (id: string): string => {
  const lot = house.lot(id);
  return lot ? lot_name(lot) : kind_words().not_here;
};

/** Within a sentence. Nouns of a language that writes them large stay large. */
const small = (word: string): string =>
  tongue.language === 'en' ? word.charAt(0).toLowerCase() + word.slice(1) : word;

const findings_words = (findings: readonly string[]): string =>
  findings
    .filter((finding) => finding !== 'sound')
    .map((finding) => small(house.reference.finding_name(finding)))
    .join(', ');

/** "to the hens", "to compost, in the yard". */
export const went_words = (went: WentBody): string =>
  joined(
    went.animals ? kind_words().to_group(group_name(went.animals)) : kind_words().went_to[went.step],
    went.cut_in && kind_words().cut_in[went.cut_in],
    went.accident ? kind_words().accident : '',
  );

const out_words = (out: OutBody): string => joined(findings_words(out.findings), ...out.went.map(went_words));

const trimmed_words = (pieces: number | undefined): string =>
  pieces === undefined
    ? kind_words().inspection.some_trimmed
    : kind_words().inspection.trimmed(figures().pieces(pieces));

function inspection(body: BodyOf<'inspection'>): Partial<Said> {
  const words = kind_words().inspection;
  if (body.way === 'none')
    return { verb: words.none, detail: body.why_not ? words.why_not[body.why_not] : '' };
  const out = (body.out ?? []).reduce((sum, one) => sum + (one.pieces ?? 0), 0);
  const seen = findings_words((body.seen ?? []).map((one) => one.finding));
  const trims = (body.trims ?? []).map((trim) => trimmed_words(trim.pieces));
  const detail = joined(out > 0 ? words.out(figures().pieces(out)) : '', seen, ...trims) || words.sound;
  return { detail, amount: body.looked === undefined ? '' : figures().pieces(body.looked) };
}

function reading(body: BodyOf<'reading'>): Partial<Said> {
  const words = kind_words().reading;
  const { temp, percent } = figures();
  const detail = joined(
    body.temp_c === undefined ? '' : temp(body.temp_c),
    body.rh_pct === undefined ? '' : percent(body.rh_pct),
    body.low_c === undefined ? '' : words.low(temp(body.low_c)),
    body.high_c === undefined ? '' : words.high(temp(body.high_c)),
  );
  return { thing: space_name(body.space), detail };
}

/** The lot a suspect lies in, by the suspect's entry. */
function suspect_lot(id: string): string {
  const line = house.lines.get(id)?.written;
  return line?.kind === 'suspect' ? lot_words(text(line.body['lot'])) : '';
}

function chore_words(key: string): string {
  const decision = house.lines.get(key)?.written;
  if (decision?.kind === 'decision') return suspect_lot(text(decision.body['suspect']));
  const [what, named = ''] = key.split('/');
  if (what === 'pick_over')
    return kind_words().claim.pick_over(lot_words(text(house.lines.get(named)?.written.body['lot'])));
  if (what === 'pail' || what === 'take_up')
    return kind_words().claim[what](group_name(text(house.lines.get(named)?.written.body['animals'])));
  if (what === 'roster') return kind_words().claim.walk(space_name(named));
  const record = house.records.find(({ type, id }) => type === 'chore' && key.startsWith(id));
  return text(record?.values['name']) || kind_words().chore_done.chore;
}

const minutes = (from: string, to: string): string =>
  figures().minutes(Math.round((Date.parse(to) - Date.parse(from)) / 60_000));

function heap_words(body: BodyOf<'heap'>): Partial<Said> {
  const words = kind_words().heap;
  const amount = body.grams === undefined ? '' : entry_amount(body);
  if (body.did === 'warmth' && body.temp_c !== undefined)
    return { detail: words.inside(figures().temp(body.temp_c)), amount };
  if (body.did === 'spread' && body.bed)
    return {
      detail: joined(words.spread_on(body.bed), body.accident ? kind_words().accident : undefined),
      amount,
    };
  return { detail: joined(body.material && words.materials[body.material], words.did[body.did]), amount };
}

const sayers: { readonly [K in Kind]: (body: BodyOf<K>, written: Written) => Partial<Said> } = {
  put_away: (body) => ({
    thing: joined(capital(crop_name(body.crop)), body.variety),
    detail: space_name(body.space),
    amount: entry_amount(body),
  }),
  take: (body) => ({
    thing: lot_words(body.lot),
    detail: joined(kind_words().take.for[body.for], body.last ? kind_words().take.last : ''),
    amount: entry_amount(body),
  }),
  cull: (body) => ({ thing: lot_words(body.lot), detail: out_words(body), amount: entry_amount(body) }),
  trim: (body) => ({
    thing: lot_words(body.lot),
    detail: joined(findings_words(body.findings), went_words(body.cut)),
    amount: entry_amount({ pieces: body.pieces, grams: body.cut.grams }),
  }),
  move: (body) => ({
    ...(body.all ? {} : { verb: kind_words().move.part }),
    thing: lot_words(body.lot),
    detail: kind_words().move.to(space_name(body.space)),
    amount: entry_amount(body),
  }),
  count: (body) => ({
    thing: lot_words(body.lot),
    detail: body.gone ? kind_words().count.gone[body.gone] : '',
    amount: entry_amount(body),
  }),
  set_aside: (body) => ({
    ...(body.pieces === 0 || body.grams === 0
      ? { verb: kind_words().set_aside.freed }
      : { amount: entry_amount(body) }),
    thing: lot_words(body.lot),
    detail: body.treated ? kind_words().set_aside.treated : '',
  }),
  put_by: (body) => ({
    thing: body.label,
    detail: joined(kind_words().put_by.method[body.method], space_name(body.space)),
    amount: kind_words().put_by.containers(body.pieces),
  }),
  reading,
  round: (body) => ({ thing: space_name(body.space), amount: minutes(body.began_at, body.ended_at) }),
  inspection: (body) => ({ thing: lot_words(body.lot), ...inspection(body) }),
  suspect: (body) => ({
    thing: lot_words(body.lot),
    detail: joined(findings_words(body.findings), kind_words().suspect.lies[body.lies]),
    amount: pieces_words(body.pieces ?? 1),
  }),
  decision: (body) => ({ thing: suspect_lot(body.suspect), detail: kind_words().decision.do[body.do] }),
  chore_done: (body) => ({
    thing: chore_words(body.chore),
    detail: body.found ?? '',
    amount: body.minutes === undefined ? '' : figures().minutes(body.minutes),
  }),
  claim: (body) => ({ thing: chore_words(body.chore) }),
  offer: (body) => ({ thing: chore_words(body.chore) }),
  scrap: (body) => ({
    thing: body.crop ? capital(crop_name(body.crop)) : kind_words().scrap.mixed,
    detail: joined(findings_words(body.findings), ...body.went.map(went_words)),
    amount: entry_amount({ grams: body.went.reduce((sum, went) => sum + (went.grams ?? 0), 0) }),
  }),
  lay: (body) => ({
    thing: group_name(body.animals),
    detail: body.broken ? kind_words().lay.broken(body.broken) : '',
    amount: kind_words().lay.eggs(body.eggs),
  }),
  pail: (body) => ({
    thing: group_name(body.animals),
    detail: body.mixed ? kind_words().pail.mixed : kind_words().pail.fed,
  }),
  heap: (body) => ({ thing: record_name(body.heap), ...heap_words(body) }),
  strike: (body, written) => ({ thing: struck_words(written), detail: body.why ?? '' }),
};

function struck_words(written: Written): string {
  const struck = written.strikes ? house.lines.get(written.strikes) : undefined;
  return struck ? title_of(say(struck.written)) : '';
}

function say_edit(written: Written): Said {
  const { type, record, set } = written.body;
  const named = house.records.find((one) => one.type === type && one.id === record);
  const lot = type === 'lot' ? house.lot(text(record)) : undefined;
  const name = lot ? lot_name(lot) : text(named?.values['name']);
  return {
    verb: kind_words().edit.verb,
    thing: joined(kind_words().edit.types[text(type)] ?? text(type), name),
    detail: Object.values(set ?? {})
      .filter((value) => typeof value === 'string' && value !== name)
      .map((value) => record_name(text(value)) || value)
      .join(', '),
    amount: '',
  };
}

const is_kind = (kind: string): kind is Kind => kind in sayers;

/** A line as words. A kind this version does not know is kept whole and says so. */
export function say(written: Written): Said {
  if (written.kind === 'edit') return say_edit(written);
  const { kind } = written;
  const empty = { thing: '', detail: '', amount: '' };
  if (!is_kind(kind)) return { ...empty, verb: kind_words().unknown };
  const sayer = sayers[kind] as (body: unknown, written: Written) => Partial<Said>;
  return { ...empty, verb: kind_words()[kind].verb, ...sayer(written.body, written) };
}

/** "Took: potatoes". */
export const title_of = (said: Said): string => (said.thing ? `${said.verb}: ${said.thing}` : said.verb);

/** "scraps, beetroot": within a sentence. */
export const short_title = ({ verb, thing }: Said): string =>
  thing ? `${small(verb)}, ${small(thing)}` : small(verb);
