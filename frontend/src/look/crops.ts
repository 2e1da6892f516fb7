/** How crops are drawn: a colour, the form of a piece in a pack, and a mark in a field of 100 x 88 for forms. */
import { disc, type PieceForm, type Shape } from './packs';

export interface CropDrawing {
  readonly colour: string;
  readonly form: PieceForm;
  readonly mark: readonly Shape[];
}

const INK = 'var(--ink)';
const GREEN = '#6f8f5a';

type Mark = (colour: string) => readonly Shape[];

const root: Mark = (colour) => [
  { d: 'M36 20h28q4 0 3 6l-12 48q-5 12-10 0L33 26q-1-6 3-6z', fill: colour, stroke: INK, width: 2 },
  { d: 'M44 20l-9-16M50 20V2M56 20l9-16', stroke: GREEN, width: 4 },
  { d: 'M38 34h9M52 46h9M44 58h7', stroke: INK, width: 1.4 },
];
const globe: Mark = (colour) => [
  { d: disc(50, 46, 25), fill: colour, stroke: INK, width: 2 },
  { d: 'M50 71q2 9-5 13', stroke: colour, width: 4 },
  { d: 'M44 22l-7-18M51 21V2M57 22l8-18', stroke: GREEN, width: 4 },
];
const knob: Mark = (colour) => [
  {
    d: 'M28 44c-2-20 44-24 46-2 8 10-2 20-10 24-4 10-24 8-28-2-10-4-14-12-8-20z',
    fill: colour,
    stroke: INK,
    width: 2,
  },
  { d: 'M38 66l-6 12M50 68v14M60 66l7 11', stroke: INK, width: 2 },
  { d: 'M44 26l-4-16M52 25V8M58 26l6-15', stroke: GREEN, width: 4 },
];
const tuber: Mark = (colour) => [
  {
    d: 'M24 50c0-20 18-28 32-24 18 4 24 18 20 32-4 14-20 20-34 16-12-3-18-12-18-24z',
    fill: colour,
    stroke: INK,
    width: 2,
  },
  { d: 'M40 42h4M58 48h4M48 60h4M62 36h3', stroke: INK, width: 2.4 },
];
const bulb: Mark = (colour) => [
  {
    d: 'M50 14c2 12 30 16 30 38 0 18-14 28-30 28s-30-10-30-28c0-22 28-26 30-38z',
    fill: colour,
    stroke: INK,
    width: 2,
  },
  { d: 'M50 22c-12 12-18 30-10 56M50 22c12 12 18 30 10 56', stroke: INK, width: 1.4 },
];
const head: Mark = (colour) => [
  { d: disc(50, 46, 32), fill: colour, stroke: INK, width: 2 },
  {
    d: 'M50 78C46 52 40 34 28 24M50 78c2-26 8-42 22-52M22 50c12 4 22 12 28 28M78 50c-10 4-22 12-28 28',
    stroke: INK,
    width: 1.6,
  },
];
const stalk: Mark = (colour) => [
  { d: 'M40 84V40L26 8l14 14 4-18 6 18 8-18 4 18L76 8 60 40v44z', fill: colour, stroke: INK, width: 2 },
  { d: 'M47 84V46M53 84V46', stroke: INK, width: 1.4 },
];
const leaf: Mark = (colour) => [
  { d: 'M50 84V44', stroke: INK, width: 3 },
  {
    d: 'M50 66C30 70 20 56 24 42c-8-10 0-24 12-24 4-12 24-12 28 0 12 0 20 14 12 24 4 14-6 28-26 24z',
    fill: colour,
    stroke: INK,
    width: 2,
  },
  { d: 'M50 62V26M50 48l-12-10M50 48l12-10', stroke: INK, width: 1.4 },
];
const pome: Mark = (colour) => [
  {
    d: 'M50 28c-12-10-32-2-32 22 0 20 14 34 24 34 4 0 5-2 8-2s4 2 8 2c10 0 24-14 24-34 0-24-20-32-32-22z',
    fill: colour,
    stroke: INK,
    width: 2,
  },
  { d: 'M50 28c0-10 2-16 8-22', stroke: INK, width: 2.4 },
];
const gourd: Mark = (colour) => [
  { d: 'M50 26c-20-6-42 8-42 30s20 28 42 28 42-6 42-28-22-36-42-30z', fill: colour, stroke: INK, width: 2 },
  {
    d: 'M50 26c-14 10-18 40-8 58M50 26c14 10 18 40 8 58M28 32c-10 14-12 34-2 48M72 32c10 14 12 34 2 48',
    stroke: INK,
    width: 1.4,
  },
  { d: 'M48 26V10h8', stroke: INK, width: 4 },
];
const nut: Mark = (colour) => [
  {
    d: 'M50 12c20 2 30 20 28 38-2 22-16 34-28 34S24 72 22 50c-2-18 8-36 28-38z',
    fill: colour,
    stroke: INK,
    width: 2,
  },
  {
    d: 'M50 12v72M34 30c6 4 6 10 0 14M66 30c-6 4-6 10 0 14M36 56c6 4 4 10 0 12M64 56c-6 4-4 10 0 12',
    stroke: INK,
    width: 1.4,
  },
];
const seeds: Mark = (colour) =>
  [
    [34, 34],
    [58, 30],
    [46, 50],
    [70, 50],
    [32, 64],
    [58, 68],
  ].map(([x = 0, y = 0]) => ({
    d: `M${x - 9} ${y}c0-9 18-9 18 0 0 4-4 5-9 3-5 2-9 1-9-3z`,
    fill: colour,
    stroke: INK,
    width: 1.6,
  }));
const egg: Mark = (colour) => [
  {
    d: 'M50 8c16 0 27 26 27 44 0 18-12 30-27 30S23 70 23 52C23 34 34 8 50 8z',
    fill: colour,
    stroke: INK,
    width: 2,
  },
];
const jar: Mark = (colour) => [
  { d: 'M30 26h40q4 4 4 10v40q0 8-8 8H34q-8 0-8-8V36q0-6 4-10z', fill: colour, stroke: INK, width: 2 },
  { d: 'M28 10h44v14H28z', fill: 'var(--wood)', stroke: INK, width: 2 },
];
const bag: Mark = (colour) => [
  {
    d: 'M18 30c8-4 56-4 64 0 6 16 6 36 0 50-8 4-56 4-64 0-6-14-6-34 0-50z',
    fill: colour,
    stroke: INK,
    width: 2,
  },
  { d: 'M20 40h60', stroke: INK, width: 1.6 },
];
const cap: Mark = (colour) => [
  { d: 'M14 48C14 22 32 10 50 10s36 12 36 38z', fill: colour, stroke: INK, width: 2 },
  { d: 'M42 48v30q8 6 16 0V48', fill: '#e9e2c4', stroke: INK, width: 2 },
];

const drawn = (colour: string, mark: Mark, form: PieceForm = 'round'): CropDrawing => ({
  colour,
  form,
  mark: mark(colour),
});

const crops: Readonly<Record<string, CropDrawing>> = {
  potato: drawn('#b9955f', tuber),
  sweet_potato: drawn('#b86a4a', tuber),
  jerusalem_artichoke: drawn('#c7a37d', tuber),
  carrot: drawn('#d9691e', root, 'root'),
  parsnip: drawn('#e2d3a4', root, 'root'),
  parsley_root: drawn('#e6dbb8', root, 'root'),
  salsify: drawn('#6b5740', root, 'root'),
  horseradish: drawn('#d8cba6', root, 'root'),
  chicory_root: drawn('#cdb98a', root, 'root'),
  beet: drawn('#84304a', globe),
  turnip: drawn('#d3b7c6', globe),
  swede: drawn('#c9a26a', globe),
  radish_winter: drawn('#4f4a44', globe),
  kohlrabi: drawn('#a9c08a', globe),
  celeriac: drawn('#bda77c', knob),
  onion: drawn('#c07a2c', bulb),
  shallot: drawn('#b3674a', bulb),
  garlic: drawn('#e6ddcb', bulb),
  leek: drawn('#9fb370', stalk, 'stalk'),
  celery: drawn('#9fb370', stalk, 'stalk'),
  cabbage: drawn('#7fa07f', head),
  red_cabbage: drawn('#73355a', head),
  savoy_cabbage: drawn('#5f8a5c', head),
  chinese_cabbage: drawn('#b6c98a', head),
  cauliflower: drawn('#e8dfc4', head),
  brussels_sprout: drawn('#7c9a58', head),
  kale: drawn('#4f7a56', leaf, 'stalk'),
  herb_dried: drawn('#7f8f5a', leaf),
  squash: drawn('#8fa3a0', gourd),
  pumpkin: drawn('#d9812a', gourd),
  tomato: drawn('#c8402c', pome),
  pepper: drawn('#b8382c', pome),
  chilli: drawn('#b02a22', root),
  apple: drawn('#b8a23f', pome),
  pear: drawn('#a9a548', pome),
  quince: drawn('#d8b83c', pome),
  plum: drawn('#5c3a63', pome),
  grape: drawn('#6a4a6e', pome),
  citrus: drawn('#dd9a2a', pome),
  walnut: drawn('#a77d4d', nut),
  hazelnut: drawn('#a9713d', nut),
  chestnut: drawn('#6f3f24', nut),
  almond: drawn('#c09a63', nut),
  bean_dry: drawn('#d9cdb2', seeds),
  dry_pea: drawn('#a7a95a', seeds),
  grain: drawn('#cfa95a', seeds),
  egg: drawn('#dcb78c', egg),
  honey: drawn('#d8962a', jar),
  jar: drawn('#73355a', jar),
  ferment: drawn('#b9c08a', jar),
  frozen: drawn('#6f8f5a', bag),
  dried: drawn('#b98a4d', bag),
  mushroom_dried: drawn('#8f6c4a', cap),
};
const another = drawn('#9fae74', leaf);

/** A household's own crop is drawn as the table's crop it is like. */
export const drawing_of = (crop: string): CropDrawing => crops[crop] ?? another;
