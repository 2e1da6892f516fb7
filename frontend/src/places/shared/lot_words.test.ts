import { expect, test } from 'vitest';
import { pieces_there } from './lot_words';

const lot = (
  pieces: number | null,
  known: 'counted' | 'worked_out' | 'presumed',
  own = 'pieces' as const,
) => ({
  shown: { pieces, grams: null },
  known,
  own_measure: own,
});

test('half a cabbage that was counted is told, what was only worked out is told whole', () => {
  expect(pieces_there(lot(22.5, 'counted'))).toBe(22.5);
  expect(pieces_there(lot(32.75, 'worked_out'))).toBe(33);
  expect(pieces_there(lot(32.4, 'presumed'))).toBe(32);
  expect(pieces_there(lot(null, 'counted'))).toBeNull();
});

test('pieces that follow from a weight that was counted are worked out', () => {
  expect(pieces_there({ ...lot(32.75, 'counted'), own_measure: 'grams' })).toBe(33);
  expect(pieces_there(lot(22.37, 'counted'))).toBe(22);
});
