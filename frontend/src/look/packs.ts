/**
 * How a lot is packed and how much is left of it, drawn in a field of 112 x 84 that stands on a plank. Pieces are put in
 * from below; a broken ring is a piece that went. Drawn from the crop's colour and shape, so that any crop in any pack can
 * be shown.
 */
export interface Shape {
  readonly d: string;
  readonly fill?: string;
  readonly stroke?: string;
  readonly width?: number;
  readonly broken?: boolean;
}

/** How a piece of a crop is drawn: round, tall with leaves, or a tapering root with its green. */
export type PieceForm = 'round' | 'stalk' | 'root';

const INK = 'var(--ink)';
const HEM = 'var(--hem)';
const WOOD = 'var(--wood)';
const DARK = 'var(--wood-dark)';
const BOARD = 'var(--board)';

export const disc = (x: number, y: number, r: number): string =>
  `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0z`;
const box = (x: number, y: number, w: number, h: number): string => `M${x} ${y}h${w}v${h}h${-w}z`;

/** `n` places in rows from below: how many to a row, and where each row begins. */
const heap = (
  rows: readonly (readonly [x: number, y: number, n: number, apart: number])[],
): [number, number][] =>
  rows.flatMap(([x, y, n, apart]) =>
    Array.from({ length: n }, (_, i): [number, number] => [x + i * apart, y]),
  );

/** How many of `places` are still there: none only when nothing is left. */
export const standing = (places: number, left: number): number =>
  left <= 0 ? 0 : Math.max(1, Math.min(places, Math.round(places * left)));

function pieces(
  at: readonly [number, number][],
  r: number,
  colour: string,
  left: number,
  width = 1.2,
): Shape[] {
  const there = standing(at.length, left);
  return at.map(([x, y], i) =>
    i < there
      ? { d: disc(x, y, r), fill: colour, stroke: INK, width }
      : { d: disc(x, y, r * 0.94), stroke: HEM, width: 1.3, broken: true },
  );
}

const CRATE: readonly [number, number, number, number][] = [
  [18, 75, 6, 15.2],
  [26, 60, 5, 15.2],
  [34, 45, 4, 15.2],
];

/** A box: its bed rises with what is in it. */
function bedded(bed: string, colour: string, left: number, top: Shape[]): Shape[] {
  const at = heap(CRATE);
  const there = standing(at.length, left);
  const level = there > 11 ? 37 : there > 6 ? 50 : there > 0 ? 62 : 72;
  return [
    { d: box(6, 30, 100, 54), fill: BOARD, stroke: INK, width: 1.5 },
    { d: box(8, level, 96, 82 - level), fill: bed },
    ...at
      .slice(0, there)
      .map(([x, y]): Shape => ({ d: disc(x, y, 6.6), fill: colour, stroke: INK, width: 1.1 })),
    ...top.map((shape) => ({ ...shape, d: shape.d.replaceAll('LEVEL', String(level + 2)) })),
    ...boxFront,
  ];
}

const boxFront: readonly Shape[] = [
  { d: 'M6 30v54h100V30', stroke: INK, width: 1.5 },
  { d: 'M9 28v56M103 28v56', stroke: DARK, width: 5 },
];

const grains: Shape = {
  d: 'M14 72h2.4M34 73h2.4M57 64h2.4M80 81h2.4M36 63h2.4M59 80h2.4M82 71h2.4M15 62h2.4M38 79h2.4M61 70h2.4M84 66h2.4M17 78h2.4M40 69h2.4M86 77h2.4',
  stroke: '#8a744a',
  width: 1.5,
};
const LEAF_BROWNS = ['#7a5a38', '#5c4024', '#8f6c44'] as const;
const leaves: Shape[] = Array.from({ length: 12 }, (_, i) => ({
  d: `M${10 + 8 * i} LEVELq${4 + (i % 3)} -7 9 ${i % 2 ? -4 : -1}q-4 5-9 4z`,
  fill: LEAF_BROWNS[i % 3] ?? LEAF_BROWNS[0],
  stroke: INK,
  width: 0.7,
}));
const straws: Shape[] = Array.from({ length: 13 }, (_, i) => ({
  d: `M${12 + 7 * i} LEVELl${[-5, 6, 3, -3][i % 4]} ${-8 - ((i * 5) % 6)}`,
  stroke: '#c9a45c',
  width: 2,
}));

const stalk = (x: number): string => `M${x} 62V30l-3-14 6 8 2-12 3 12 6-8-3 14v32z`;

function stalks(colour: string, left: number): Shape[] {
  const xs = Array.from({ length: 7 }, (_, i) => 12 + 13.4 * i);
  const there = standing(xs.length, left);
  return [
    { d: box(6, 56, 100, 28), fill: '#d6c69c', stroke: INK, width: 1.5 },
    ...xs.map((x, i): Shape =>
      i < there
        ? { d: stalk(x), fill: colour, stroke: INK, width: 1.2 }
        : { d: stalk(x), stroke: HEM, width: 1.2, broken: true },
    ),
    { d: box(7, 60, 98, 23), fill: '#d6c69c' },
    { d: 'M20 68h3M38 74h3M55 67h3M72 75h3M88 69h3M30 79h3M64 79h3', stroke: '#8a744a', width: 1.6 },
    { d: 'M6 56v28h100V56', stroke: INK, width: 1.5 },
    { d: 'M9 54v30M103 54v30', stroke: DARK, width: 5 },
  ];
}

const openShelf = (colour: string, left: number): Shape[] =>
  pieces(
    heap([
      [16, 70, 4, 26.7],
      [29, 47, 3, 27],
      [42, 24, 2, 28],
    ]),
    12.5,
    colour,
    left,
    1.3,
  );

function crate(colour: string, left: number): Shape[] {
  const at = heap([
    [17, 76, 6, 15.6],
    [25, 61, 5, 15.5],
    [33, 46, 4, 15.5],
  ]);
  const there = standing(at.length, left);
  return [
    { d: box(8, 34, 96, 50), fill: BOARD },
    ...at
      .slice(0, there)
      .map(([x, y]): Shape => ({ d: disc(x, y, 6.8), fill: colour, stroke: INK, width: 1.1 })),
    ...[38, 55, 72].map((y): Shape => ({ d: box(5, y, 102, 6), fill: WOOD, stroke: INK, width: 1.2 })),
    { d: 'M10 30v54M102 30v54', stroke: DARK, width: 5 },
  ];
}

function tray(colour: string, left: number): Shape[] {
  const at = heap([
    [12, 66, 7, 14.6],
    [12, 36, 7, 14.6],
  ]);
  return [
    ...pieces(at, 6.6, colour, left),
    ...[73, 43].map((y): Shape => ({ d: box(3, y, 106, 6), fill: WOOD, stroke: INK, width: 1.2 })),
    { d: 'M6 40v44M106 40v44', stroke: DARK, width: 4 },
  ];
}

function net(colour: string, left: number): Shape[] {
  const at = heap([
    [39, 73, 3, 17],
    [31, 58, 4, 17],
    [39, 43, 3, 17],
    [48, 28, 2, 17],
  ]);
  return [
    ...pieces(at, 8, colour, left, 1.3),
    { d: 'M56 0v12', stroke: INK, width: 2.4 },
    {
      d: 'M46 18 88 66M37 26l44 50M30 36l36 46M24 50l26 32M66 18 24 66M75 26 31 76M82 36 46 82M88 50 62 82',
      stroke: HEM,
      width: 1.1,
    },
    { d: 'M56 12C30 26 20 44 22 62c2 16 16 20 34 20s32-4 34-20C92 44 82 26 56 12z', stroke: INK, width: 1.6 },
  ];
}

/** Strings from a bar: the lowest go first when they are cut. */
function hung(colour: string, left: number): Shape[] {
  const at = heap([
    [20, 28, 4, 24],
    [20, 46, 4, 24],
    [20, 64, 4, 24],
  ]);
  return [
    { d: box(4, 6, 104, 6), fill: WOOD, stroke: INK, width: 1.2 },
    { d: 'M20 12v60M44 12v60M68 12v60M92 12v60', stroke: HEM, width: 2 },
    ...pieces(at, 8, colour, left, 1.2),
  ];
}

function jars(colour: string, left: number): Shape[] {
  const there = standing(5, left);
  return [3, 25, 47, 69, 91].flatMap((x, i): Shape[] => {
    const full = i < there;
    return [
      {
        d: box(x, 46, 19, 38),
        ...(full ? { fill: colour } : { broken: true }),
        stroke: full ? INK : HEM,
        width: 1.4,
      },
      { d: box(x + 2, 40, 15, 6), ...(full ? { fill: WOOD } : {}), stroke: full ? INK : HEM, width: 1.2 },
    ];
  });
}

function crock(colour: string, left: number): Shape[] {
  const level = Math.round(78 - 40 * Math.max(0, Math.min(1, left)));
  return [
    { d: 'M26 24h60l6 12-6 48H26l-6-48z', fill: BOARD, stroke: INK, width: 1.6 },
    ...(left > 0 ? [{ d: `M24 ${level}h64L86 82H26z`, fill: colour, stroke: INK, width: 1 }] : []),
    { d: box(22, 16, 68, 8), fill: WOOD, stroke: INK, width: 1.2 },
  ];
}

function bags(colour: string, left: number): Shape[] {
  const there = standing(5, left);
  return [83, 69, 55, 41, 27].map((y, i): Shape => {
    const d = `M10 ${y}c-4-8 2-13 10-13h74c8 0 12 6 8 13z`;
    return i < there
      ? { d, fill: colour, stroke: INK, width: 1.3 }
      : { d, stroke: HEM, width: 1.3, broken: true };
  });
}

function sack(colour: string, left: number): Shape[] {
  const at = heap([
    [40, 72, 3, 16],
    [40, 57, 3, 16],
    [48, 43, 2, 16],
  ]);
  return [
    { d: 'M34 26c-8 16-12 40-8 58h60c4-18 0-42-8-58z', fill: BOARD, stroke: INK, width: 1.5 },
    ...pieces(at, 7, colour, left, 1.1),
    { d: 'M34 26c6-4 4-12-2-18M78 26c-6-4-4-12 2-18M32 26h48', stroke: INK, width: 2 },
  ];
}

const ROOT = 'h12l-4 26q-2 8-4 0z';

function inGround(colour: string, form: PieceForm, left: number): Shape[] {
  const xs = [7, 28, 49, 70, 91];
  const there = standing(xs.length, left);
  const green = form === 'stalk' ? colour : '#6f8f5a';
  return [
    { d: box(0, 40, 112, 44), fill: '#6d5236' },
    { d: 'M0 40H112', stroke: INK, width: 1.6 },
    ...xs.flatMap((x, i): Shape[] =>
      i < there
        ? [
            {
              d: `M${x + 6} 40l-5-14M${x + 6} 40l5-14M${x + 6} 40v-17`,
              stroke: green,
              width: form === 'stalk' ? 4 : 2.4,
            },
            { d: `M${x} 40${ROOT}`, fill: form === 'stalk' ? '#e9e2c4' : colour, stroke: INK, width: 1.2 },
          ]
        : [{ d: `M${x} 40${ROOT}`, stroke: HEM, width: 1.2, broken: true }],
    ),
  ];
}

function clamp(colour: string, left: number): Shape[] {
  return [
    ...pieces(
      heap([
        [24, 76, 5, 16],
        [32, 62, 4, 16],
        [40, 48, 3, 16],
      ]),
      7,
      colour,
      left,
      1.1,
    ),
    { d: 'M2 84C10 50 34 28 56 26s46 24 54 58', stroke: '#c9a45c', width: 5 },
    { d: 'M0 84C6 44 30 20 56 18s50 26 56 66', stroke: '#6d5236', width: 7 },
    { d: 'M52 20l2-14M58 20l2-15M55 18V4', stroke: '#c9a45c', width: 2.4 },
  ];
}

/** Packs of the tables with a drawing of their own; another pack is drawn as an open shelf. */
export function packed(pack: string | null, colour: string, form: PieceForm, left: number): readonly Shape[] {
  if (form === 'stalk' && (pack === 'sand' || pack === 'open_shelf' || pack === 'crate' || pack === null))
    return stalks(colour, left);
  switch (pack) {
    case 'crate':
    case 'wrapped':
      return crate(colour, left);
    case 'tray':
    case 'egg_tray':
      return tray(colour, left);
    case 'net':
      return net(colour, left);
    case 'hung':
      return hung(colour, left);
    case 'sand':
      return bedded('#d6c69c', colour, left, [grains]);
    case 'sawdust':
      return bedded('#dcc08a', colour, left, [grains]);
    case 'leaves':
      return bedded('#7a5a38', colour, left, leaves);
    case 'straw':
      return bedded('#c9a45c', colour, left, straws);
    case 'bag':
    case 'in_shell':
      return sack(colour, left);
    case 'freezer_bag':
    case 'pack':
      return bags(colour, left);
    case 'jar':
      return jars(colour, left);
    case 'crock':
      return crock(colour, left);
    case 'in_ground':
      return inGround(colour, form, left);
    case 'clamp':
      return clamp(colour, left);
    default:
      return openShelf(colour, left);
  }
}
