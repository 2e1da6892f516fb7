/**
 * Every pair of colours that carries text or marks an edge, in both lights. Thresholds: WCAG 2.2, success criteria 1.4.3
 * (text 4.5) and 1.4.11 (edges and plot lines 3); the ratio as WCAG 2.2 defines relative luminance.
 */
import { describe, expect, test } from 'vitest';
import css from './tokens.css?raw';

function tokens(selector: string): Record<string, string> {
  const start = css.indexOf(selector);
  const block = css.slice(start, css.indexOf('}', start));
  return Object.fromEntries([...block.matchAll(/--([a-z-]+):\s*(#[0-9a-f]{6})/g)].map((m) => [m[1], m[2]]));
}

function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5]
    .map((at) => parseInt(hex.slice(at, at + 2), 16) / 255)
    .map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function ratio(a: string, b: string): number {
  const [low = 0, high = 0] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (high + 0.05) / (low + 0.05);
}

const text = [
  ['ink', 'ground'],
  ['ink', 'ground-lit'],
  ['ink', 'board'],
  ['ink', 'sheet'],
  ['ink-soft', 'ground'],
  ['ink-soft', 'board'],
  ['ink-soft', 'sheet'],
  ['ink-quiet', 'ground'],
  ['key-ink', 'key-fill'],
  ['mark-ink', 'mark'],
  ['ember', 'ground'],
  ['ember', 'sheet'],
  ['ember', 'board'],
  ['leaf', 'ground'],
  ['frost', 'ground'],
] as const;
const edges = [
  ['hem', 'ground'],
  ['hem', 'sheet'],
  ['lamp', 'mark'],
  ['lamp', 'ground'],
  ['wood', 'ground'],
  ['band-line', 'band'],
] as const;

describe.each(['daylight', 'lantern'])('in %s', (light) => {
  const colour = tokens(`[data-light='${light}'] {`);
  const measured = (one: string, other: string) =>
    ratio(colour[one] ?? '#000000', colour[other] ?? '#000000');

  test.each(text)('%s on %s can be read', (one, other) => {
    expect(measured(one, other)).toBeGreaterThanOrEqual(4.5);
  });
  test.each(edges)('%s on %s can be seen', (one, other) => {
    expect(measured(one, other)).toBeGreaterThanOrEqual(3);
  });
});

test('a colour is told apart from itself in no way, and black on white as far as can be', () => {
  expect(ratio('#123456', '#123456')).toBe(1);
  expect(ratio('#000000', '#ffffff')).toBeCloseTo(21, 5);
});
