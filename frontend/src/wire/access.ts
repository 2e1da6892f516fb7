/** What letting a phone in answers. */
import { is_count, is_object, is_text, is_text_list, parse_json, type Json } from './json.ts';
import { read_codes } from './push.ts';
import type { Id } from './written.ts';

export interface LetIn {
  readonly household: Id;
  readonly name: string;
  readonly device: Id;
  /** Who may write on this phone, its holder first. */
  readonly people: readonly Id[];
  readonly demo: boolean;
  /** A minder's phone does not pull the feed. */
  readonly minder: boolean;
  /** The highest device_no the server has seen of this device. */
  readonly last_no: number;
  readonly codes?: { readonly from: number; readonly to: number };
}

export const read_let_in = (text: string): LetIn | undefined => read_let_in_value(parse_json(text));

export function read_let_in_value(reply: Json | undefined): LetIn | undefined {
  if (!is_object(reply)) return undefined;
  const household = reply['household'];
  const device = id_in(reply['device']);
  const people = is_object(reply['device']) ? reply['device']['people'] : reply['people'];
  if (!is_object(household) || device === undefined || !is_text_list(people)) return undefined;
  const { id, name, demo } = household;
  if (!is_text(id) || !is_text(name)) return undefined;
  const codes = read_codes(reply['codes']);
  const last_no = is_count(reply['last_no']) ? reply['last_no'] : 0;
  const minder = reply['minder'] === true;
  return {
    household: id,
    name,
    device,
    people,
    demo: demo === true,
    minder,
    last_no,
    ...(codes && { codes }),
  };
}

const id_in = (value: Json | undefined): Id | undefined =>
  is_object(value) && is_text(value['id']) ? value['id'] : is_text(value) ? value : undefined;
