// The twin is tests/reference/test_own.py.
import { beforeAll, describe, expect, it } from 'vitest';
import { reference, type Reference } from './index.ts';
import { with_own, type OwnFigure } from './own.ts';

let tables: Reference;
beforeAll(async () => {
  tables = await reference('en');
});

const figure = (fields: Partial<OwnFigure> = {}): OwnFigure => ({
  table: 'piece_weights',
  key: 'carrot',
  column: 'piece_g',
  value: 95,
  ...fields,
});

describe('own figures', () => {
  it('come before the tables', () => {
    const own = with_own(tables, [figure()]);
    expect(own.figures['carrot']).toEqual({ ...tables.figures['carrot'], piece_g: 95 });
    expect(tables.figures['carrot']?.piece_g).toBe(140);
  });

  it('may be an interval', () => {
    const own = with_own(tables, [figure({ table: 'looking_over', column: 'every_days', value: 5 })]);
    expect(own.looking_over['carrot']).toEqual({ every_days: 5, every_days_late: 7, late_from_month: 3 });
  });

  it.each([{ archived: true }, { value: null }, { column: 'water_pct' }])(
    'change nothing when taken back: %o',
    (gone) => {
      const own = with_own(tables, [figure(gone)]);
      expect(own).toEqual({ figures: tables.figures, looking_over: tables.rules.looking_over });
    },
  );

  it('of an interval are none until all three are known', () => {
    const own = with_own(tables, [
      figure({ key: 'own', table: 'looking_over', column: 'every_days', value: 5 }),
    ]);
    expect(own.looking_over['own']).toBeUndefined();
  });
});

describe('own crops', () => {
  it('borrow from the one they are like', () => {
    const own = with_own(tables, [], [{ id: 'own', like: 'carrot', count_unit: 'piece' }]);
    expect(own.figures['own']).toEqual({ ...tables.figures['carrot'], count_unit: 'piece' });
    expect(own.looking_over['own']).toEqual(tables.rules.looking_over['carrot']);
  });

  it('have none until they are given one', () => {
    const own = with_own(tables, [figure({ key: 'own' })], [{ id: 'own', like: null }]);
    expect(own.figures['own']).toEqual({ piece_g: 95 });
    expect(own.looking_over['own']).toBeUndefined();
  });
});
