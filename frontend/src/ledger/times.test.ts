// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { SetClock } from './doubles.ts';
import { moment_text, noon_text, offset_text } from './times.ts';

describe('times as written', () => {
  it('tell the moment with milliseconds and the phone its offset', () => {
    const clock = new SetClock();
    expect(moment_text(clock, clock.at)).toBe('2026-11-25T10:24:53.123+01:00');
    expect(Date.parse(moment_text(clock, clock.at))).toBe(clock.at);
  });

  it.each([
    [0, '+00:00'],
    [-210, '-03:30'],
    [-30, '-00:30'],
    [765, '+12:45'],
  ])('write an offset of %i minutes as %s', (minutes, text) => {
    expect(offset_text(minutes)).toBe(text);
  });

  it('put a day a person names at noon', () => {
    expect(noon_text(new SetClock(), '2026-11-20')).toBe('2026-11-20T12:00:00.000+01:00');
  });
});
