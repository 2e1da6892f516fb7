// @vitest-environment node
import { v7 } from 'uuid';
import { describe, expect, it } from 'vitest';
import { id_mint } from './ids.ts';
import { counting_random, SetClock } from './doubles.ts';

const ms_of = (id: string): number => parseInt(id.replaceAll('-', '').slice(0, 12), 16);

describe('ids made on the phone', () => {
  // Source: RFC 9562, appendix A.6.
  it('are laid out as the example of the standard', () => {
    const random = Uint8Array.from([0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f]);
    const seq = ((0xcc3 << 20) | (0x18 << 14) | (0xc4 << 6) | (0xdc >> 2)) >>> 0;
    expect(v7({ msecs: 0x017f22e279b0, seq, random })).toBe('017f22e2-79b0-7cc3-98c4-dc0c0c07398f');
  });

  // Source: RFC 9562, sections 4.1, 4.2 and 5.7.
  it('have version 7, the variant of the standard, and the moment in milliseconds', () => {
    const clock = new SetClock();
    const id = id_mint(clock, counting_random())();
    expect(id).toMatch(/^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    expect(ms_of(id)).toBe(clock.at);
  });

  it('rise within one millisecond, and while the clock stands a little back', () => {
    const clock = new SetClock();
    const mint = id_mint(clock, counting_random());
    const ids = Array.from({ length: 1000 }, () => mint());
    clock.at -= 30_000;
    ids.push(mint(), mint());
    expect([...ids].sort()).toEqual(ids);
    expect(new Set(ids).size).toBe(ids.length);
  });

  it('hazard 10: believe a clock that was set back', () => {
    const clock = new SetClock();
    const mint = id_mint(clock, counting_random());
    mint();
    clock.at -= 86_400_000;
    expect(ms_of(mint())).toBe(clock.at);
  });
});
