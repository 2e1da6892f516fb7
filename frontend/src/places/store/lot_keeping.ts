/**
 * How a lot is keeping against what was expected of it: its row of the sheet `outlook/<crop>` (docs/sheets.md), with the
 * rounds walked since. A sheet of another shape, of a newer server, reads as none. Pure.
 *
 * A round walked since adds its ring, by what it saw: after a look at all, what is left is as sound as that; a sample
 * tells of all and takes out only its own (as `kept_by_looks` of the server). The range of what is sound stays as of the
 * sheet. A take moves neither: it is of what was not eaten.
 */
import type { Id, Json, Line, Sheet } from '../../ledger';
import type { InspectionBody } from '../../storekeeping/shapes';
import type { LotState } from '../../storekeeping/state';
import { band, bands, fields, number_of, rows, text, type Band } from '../shared/sheet_fields';
import type { Held } from '../shared/since';

/** The curve tells one week in so many. [days] */
export const STEP_DAYS = 28;

export interface Ring {
  readonly day: string;
  /** Of 100 not eaten, still sound, as the look saw it; and what it left behind it. */
  readonly share: number;
  readonly left: number;
}
export interface Keeping {
  /** The day it was put away. */
  readonly from: string;
  /** The day of the sheet, and when it was worked out. */
  readonly day: string;
  readonly made_at: string;
  /** Of 100 put away and not eaten: sound now, and expected to be by now. */
  readonly sound: Band;
  readonly expected: Band;
  /** Expected at put-away and every four weeks since. */
  readonly curve: readonly Band[];
  readonly rings: readonly Ring[];
  readonly word: string;
  readonly look_days: number | undefined;
  /** Lines of the lot are held that the sheet did not know, or it is of a day gone by. */
  readonly behind: boolean;
}

/** Undefined where no sheet tells of the lot. */
export function keeping_of(
  lot: Pick<LotState, 'id' | 'crop' | 'history'>,
  sheets: readonly Sheet[],
  held: Pick<Held, 'lines' | 'today'>,
): Keeping | undefined {
  const sheet = sheets.find((one) => one.key === `outlook/${lot.crop}`);
  const content = fields(sheet?.content);
  const row = rows(content?.['lots']).find((one) => text(one['lot']) === lot.id);
  const told = fields(row?.['keeping']);
  const sound = band(told?.['sound']);
  const expected = band(told?.['expected']);
  const curve = bands(told?.['curve']);
  if (!sheet || !told || !sound || !expected || curve.length < 2) return undefined;
  const day = text(content?.['day']);
  const news = lot.history.flatMap((past) => unknown_to(past.id, sheet.as_of, held));
  const rings = rings_of(told['looks']);
  return {
    from: text(told['from']),
    day,
    made_at: sheet.made_at,
    sound,
    expected,
    curve,
    rings: [...rings, ...rings_since(lot, news, rings.at(-1)?.left ?? 100)],
    word: text(told['word']),
    look_days: number_of(row?.['look_days']),
    behind: news.length > 0 || day < held.today,
  };
}

/** Why nothing can be said of the lot: `no_figures`, `no_sense`, or the sentence that names the fact; '' where it can. */
export function silent_of(lot: Pick<LotState, 'id'>, sheets: readonly Sheet[]): string {
  const sheet = sheets.find((one) => one.kind === 'on_the_turn');
  const row = rows(fields(sheet?.content)?.['silent']).find((one) => text(one['lot']) === lot.id);
  return text(row?.['why']);
}

function unknown_to(id: Id, as_of: number, held: Pick<Held, 'lines'>): readonly Line[] {
  const line = held.lines.get(id);
  return line && (line.seq === undefined || line.seq > as_of) ? [line] : [];
}

const rings_of = (value: Json | undefined): readonly Ring[] =>
  (Array.isArray(value) ? value : []).flatMap((one) => {
    const [day, share, left] = Array.isArray(one) ? one : [];
    const told = typeof day === 'string' && typeof share === 'number' && typeof left === 'number';
    return told ? [{ day, share, left }] : [];
  });

function rings_since(
  lot: Pick<LotState, 'history'>,
  news: readonly Line[],
  left_behind: number,
): readonly Ring[] {
  const by_id = new Map(news.map((line) => [line.written.id, line]));
  const rings: Ring[] = [];
  let left = left_behind;
  for (const past of lot.history) {
    const line = past.counts && past.kind === 'inspection' ? by_id.get(past.id) : undefined;
    const kept = line && kept_share(line.written.body as unknown as InspectionBody);
    if (kept === undefined || !line) continue;
    const share = left * kept;
    if (line.written.body['way'] === 'all') left = share;
    rings.push({ day: past.day, share: Math.round(share), left });
  }
  return rings;
}

/** Of the pieces looked at, the share left; undefined where pieces were not told. */
function kept_share({ way, looked, out }: InspectionBody): number | undefined {
  if (way === 'none' || !looked) return undefined;
  const gone = (out ?? []).map((one) => one.pieces);
  if (gone.some((pieces) => pieces === undefined)) return undefined;
  return 1 - Math.min(1, gone.reduce((sum: number, pieces) => sum + (pieces ?? 0), 0) / looked);
}
