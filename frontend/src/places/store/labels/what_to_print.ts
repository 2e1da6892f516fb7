/** Labels as they are printed, of lots and blank ones. Reactive through `house` and the words. */
import type { LotState } from '../../../storekeeping/state';
import { figures } from '../../../words';
import { code_address, lots_of_code } from '../../shared/finding/codes';
import { house } from '../../shared/house.svelte';
import { amount_words, capital, crop_name } from '../../shared/lot_words';
import { space_name } from '../../shared/names';
import { numeric, text } from '../../shared/records';
import { code_of } from '../putting.svelte';

export interface Label {
  readonly code: string;
  /** What its QR code holds. */
  readonly address: string;
  readonly name: string;
  readonly lines: readonly string[];
}

const prefix = (): string => text(house.household?.values['code_prefix']);

/** The day it was put away and how much it was then. */
function birth_words(lot: LotState): string {
  const body = house.lines.get(lot.history[0]?.id ?? '')?.written.body;
  const amount = amount_words(lot.crop, {
    pieces: numeric(body?.['pieces']) ?? null,
    grams: numeric(body?.['grams']) ?? null,
  });
  return [`${figures().short_day(lot.put_away_day)} ${lot.put_away_day.slice(0, 4)}`, amount]
    .filter(Boolean)
    .join(', ');
}

export function label_of(lot: LotState): Label {
  const code = lot.code ?? '';
  const place = [space_name(lot.space), lot.spot].filter(Boolean).join(', ');
  return {
    code,
    address: code_address(location.origin, code),
    name: lot.label ?? capital(crop_name(lot.crop)),
    lines: [lot.variety ?? '', birth_words(lot), place].filter(Boolean),
  };
}

export function blank_label(number: number): Label {
  const code = code_of(prefix())(number);
  return { code, address: code_address(location.origin, code), name: '', lines: [] };
}

/** Lots whose label was not printed on this phone; one without a number gets none before it was sent. */
export const without_label = (printed: readonly string[]): readonly LotState[] =>
  house.lots.filter((lot) => lot.code !== null && !printed.includes(lot.id));

/** Blank labels that no lot has yet. */
export const still_blank = (numbers: readonly number[]): readonly number[] =>
  numbers.filter((number) => lots_of_code(house.all_lots, code_of(prefix())(number), prefix()).length === 0);
