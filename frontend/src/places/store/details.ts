/** What may be said of a lot anew. How much of it there is and where it stands are told by entries, never here. Pure. */
import type { Body } from '../../ledger';
import type { LotState } from '../../storekeeping/state';

/** As the form holds it: '' for what is not said. */
export interface Details {
  readonly label: string;
  readonly variety: string;
  readonly code: string;
  readonly notes: string;
  readonly vessel: string;
  /** The year it began in. */
  readonly winter: number;
}

type Described = Pick<LotState, 'label' | 'variety' | 'code' | 'winter'>;

/** As the lot is described now; a part shows what it has from the lot it was moved from. */
export function details_of(lot: Described, values: Body): Details {
  const told = (field: string): string => {
    const value = values[field];
    return typeof value === 'string' ? value : '';
  };
  return {
    label: lot.label ?? '',
    variety: lot.variety ?? '',
    code: lot.code ?? '',
    notes: told('notes'),
    vessel: told('vessel'),
    winter: lot.winter,
  };
}

/** As fields of the lot's record: what is not said is null. */
export const fields_of = ({ winter, ...texts }: Details): Body => ({
  ...Object.fromEntries(Object.entries(texts).map(([name, value]) => [name, String(value).trim() || null])),
  winter,
});

/** As the server takes it: up to 16 letters, digits and dashes. */
export const code_fits = (code: string): boolean => /^[A-Za-z0-9-]{0,16}$/.test(code.trim());

/** The winter it is of, and those beside it. */
export const winters_about = (winter: number): readonly number[] => [winter - 1, winter, winter + 1];
