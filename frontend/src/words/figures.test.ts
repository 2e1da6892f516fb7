import { describe, expect, test, vi } from 'vitest';
import { c_to_f, CM_AN_INCH, f_to_c, Figures, GRAMS_A_POUND } from './figures';
import { many } from './many';
import type { Manner } from './tongue.svelte';

const manner: Manner = { weight: 'kg', temp: 'C', length: 'cm', week_start: 1, zone: 'Europe/Vienna' };
const metric = new Figures('en-GB', manner);
const german = new Figures('de-DE', manner);
const imperial = new Figures('en-GB', { ...manner, weight: 'lb', temp: 'F', length: 'in' });
const plain = (shown: string) => shown.replaceAll('\u00a0', ' ');

describe('conversions, against NIST SP 811 (2008), appendix B.8', () => {
  test('a pound is 0.45359237 kg and an inch 2.54 cm, exactly', () => {
    expect(GRAMS_A_POUND / 1000).toBe(0.45359237);
    expect(CM_AN_INCH).toBe(2.54);
  });
  test('degrees Fahrenheit to Celsius: t/°C = (t/°F − 32)/1.8', () => {
    expect(f_to_c(32)).toBe(0);
    expect(f_to_c(212)).toBe(100);
    expect(c_to_f(-40)).toBe(-40);
  });
  test('what is shown in pounds comes back to the same grams', () => {
    for (const grams of [1, 454, 2500, 41_000]) expect(imperial.grams(imperial.weigh(grams))).toBe(grams);
  });
});

describe('weights', () => {
  test('the lower end of a band leaves its unit to the upper one, where both have the same', () => {
    expect(metric.low_end(800, 3_500)).toBe('0.8');
    expect(metric.low_end(0, 3_600)).toBe('0');
    expect(plain(metric.low_end(80, 3_600))).toBe('80 g');
    expect(german.low_end(9_800, 17_000)).toBe('9,8');
  });

  test('are set in the unit people weigh in', () => {
    expect(plain(metric.weight(41_000))).toBe('41 kg');
    expect(plain(metric.weight(2_440))).toBe('2.4 kg');
    expect(plain(metric.weight(9_970))).toBe('10 kg');
    expect(plain(metric.weight(80))).toBe('80 g');
    expect(plain(metric.weight(-400))).toBe('−0.4 kg');
    expect(plain(german.weight(2_440))).toBe('2,4 kg');
    expect(plain(imperial.weight(41_000))).toBe('90 lb');
    expect(plain(imperial.weight(80))).toBe('2.8 oz');
  });
  test('pieces come in quarters', () => {
    expect(plain(metric.pieces(22.5))).toBe('22 ½');
    expect(metric.pieces(0.25)).toBe('¼');
    expect(metric.pieces(17)).toBe('17');
  });
});

describe('temperatures', () => {
  test('are shown to a tenth and read back to a tenth', () => {
    expect(plain(metric.temp(-1.2))).toBe('−1.2 °C');
    expect(plain(imperial.temp(2.5))).toBe('36.5 °F');
    expect(imperial.celsius(36.5)).toBe(2.5);
  });
});

describe('days', () => {
  test('a day is a day in the household’s zone', () => {
    expect(metric.day_of('2026-01-13T23:30:00Z')).toBe('2026-01-14');
    expect(metric.days_between('2026-01-13T23:30:00Z', '2026-01-16')).toBe(2);
  });
  test('a day is put together from its parts: WebKit writes en-CA as 11/25/2026', () => {
    // The library types this getter as a method, which cannot be spied on as a getter.
    const asked: { readonly format: unknown } = Intl.DateTimeFormat.prototype;
    const format = vi.spyOn(asked, 'format', 'get');
    format.mockReturnValue(() => '11/25/2026');
    expect(new Figures('en-GB', manner).day_of('2026-11-25T09:00:00Z')).toBe('2026-11-25');
    format.mockRestore();
  });
  test('are written as the language writes them', () => {
    expect(metric.day('2026-01-04')).toBe('4 January');
    expect(german.day('2026-01-04')).toBe('4. Januar');
    expect(metric.time('2026-01-13T16:46:00Z')).toBe('17:46');
  });
  test('a margin has the time today, the weekday this week, else the day', () => {
    const now = '2026-01-14T18:00:00Z';
    expect(metric.margin('2026-01-14T16:46:00Z', now)).toBe('17:46');
    expect(metric.margin('2026-01-12T16:46:00Z', now)).toBe('Mon');
    expect(metric.margin('2025-12-12T16:46:00Z', now)).toBe('12 Dec');
  });
  test('a day that only has a date is not moved by a zone', () => {
    const far = new Figures('en-GB', { ...manner, zone: 'Pacific/Auckland' });
    expect(far.day('2026-01-04')).toBe('4 January');
  });
});

test('plurals follow the language', () => {
  expect(many('en-GB')(1, { one: '# lot', other: '# lots' })).toBe('1 lot');
  expect(many('en-GB')(1200, { one: '# lot', other: '# lots' })).toBe('1,200 lots');
  expect(many('de-DE')(1200, { one: '# Posten', other: '# Posten' })).toBe('1.200 Posten');
});

describe('how long ago', () => {
  const at = '2026-11-25T12:00:00Z';
  test('is told in words, not as nought minutes', () => {
    expect(metric.ago(at, '2026-11-25T12:00:20Z')).toBe('this minute');
    expect(german.ago(at, '2026-11-25T12:00:20Z')).toBe('in dieser Minute');
  });
  test('is told in minutes, hours, then days', () => {
    expect(metric.ago(at, '2026-11-25T12:08:00Z')).toBe('8 min ago');
    expect(metric.ago(at, '2026-11-25T15:00:00Z')).toMatch(/^3 hr?s? ago$/);
    expect(metric.ago(at, '2026-11-28T12:00:00Z')).toBe('3 days ago');
  });
});

test('a row in the garden is as long as the household measures', () => {
  // By hand: 64 m are 6400 / 2.54 / 12 = 210 ft.
  expect(plain(metric.row_length(64))).toBe('64 m');
  expect(plain(imperial.row_length(64))).toBe('210 ft');
});
