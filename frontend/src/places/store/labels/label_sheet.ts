/** How labels lie on a sheet of any size. Lengths in millimetres. Pure. */
import type { PaperName } from '../../shared/Paper.svelte';

export interface SheetKind {
  readonly paper: PaperName;
  readonly columns: number;
  readonly rows: number;
  /** From the upper and lower edge to the first and last label; from the sides. [mm] */
  readonly top: number;
  readonly side: number;
  /** Labels of a sheet begun that are used up already. */
  readonly used: number;
}

/** Two by four, as large as A4 gives: for crates that are read from a step away. */
export const FIRST: SheetKind = { paper: 'a4', columns: 2, rows: 4, top: 10, side: 10, used: 0 };

/** A4: ISO 216. Letter: 8.5 by 11 inches. [mm] */
const PAPER: Readonly<Record<PaperName, readonly [number, number]>> = {
  a4: [210, 297],
  letter: [215.9, 279.4],
};

/** Bounds of the steppers. */
export const MOST = { columns: 8, rows: 24, top: 40, side: 40 } as const;

export interface LabelSize {
  readonly width: number;
  readonly height: number;
  /** Side of the QR code with its white edge. */
  readonly qr: number;
  /** There is room for a line to write on in pencil. */
  readonly line: boolean;
}

/** Room around what is printed, so that a cut that goes wide takes nothing away. [mm] */
const EDGE = 2;
/** A code of 41 modules and its edge is read by a phone from here on: half a millimetre a module. Tried, no source. [mm] */
const LEAST_QR = 16;

export function label_size({ paper, columns, rows, top, side }: SheetKind): LabelSize {
  const [wide, high] = PAPER[paper];
  const width = (wide - 2 * side) / columns;
  const height = (high - 2 * top) / rows;
  const qr = Math.max(LEAST_QR, Math.min(height - 2 * EDGE, width * 0.42, 40));
  return { width, height, qr, line: height >= 45 && width >= 60 };
}

/** Too small for a code that is read and a number beside it. */
export const too_small = (sheet: SheetKind): boolean => {
  const { width, height } = label_size(sheet);
  return height < LEAST_QR + 2 * EDGE || width < 2 * LEAST_QR + 2 * EDGE;
};

export interface Placed<T> {
  readonly what: T;
  /** From the paper's upper left corner. [mm] */
  readonly left: number;
  readonly top: number;
}

/** Sheets, each with its labels where they lie; the first begins behind those used up. */
export function placed<T>(all: readonly T[], sheet: SheetKind): readonly (readonly Placed<T>[])[] {
  const { width, height } = label_size(sheet);
  const a_sheet = sheet.columns * sheet.rows;
  const used = Math.min(sheet.used, a_sheet - 1);
  const sheets: Placed<T>[][] = [];
  for (const [index, what] of all.entries()) {
    const at = index + used;
    const place = at % a_sheet;
    const on = (sheets[Math.floor(at / a_sheet)] ??= []);
    on.push({
      what,
      left: sheet.side + (place % sheet.columns) * width,
      top: sheet.top + Math.floor(place / sheet.columns) * height,
    });
  }
  return sheets;
}
