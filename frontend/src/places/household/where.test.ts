import { expect, test } from 'vitest';
import { is_ios_tab, shown_code, tidy_code } from './where';

const iphone = 'Mozilla/5.0 (iPhone; CPU iPhone OS 18_5 like Mac OS X) AppleWebKit/605.1.15';
const desk_mode = 'Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15';

test('a tab on iOS is told to move to the home screen, the app there is not', () => {
  expect(is_ios_tab({ userAgent: iphone, maxTouchPoints: 5 }, false)).toBe(true);
  expect(is_ios_tab({ userAgent: iphone, maxTouchPoints: 5, standalone: true }, false)).toBe(false);
  expect(is_ios_tab({ userAgent: iphone, maxTouchPoints: 5 }, true)).toBe(false);
});

test('a tablet that calls itself a desk is one of them, a desk is not', () => {
  expect(is_ios_tab({ userAgent: desk_mode, maxTouchPoints: 5 }, false)).toBe(true);
  expect(is_ios_tab({ userAgent: desk_mode, maxTouchPoints: 0 }, false)).toBe(false);
});

test('a code is read however it is typed', () => {
  expect(tidy_code(' k7mp-3o iL')).toBe('K7MP3011');
  expect(tidy_code('K7MP-3QRSTU')).toBe('K7MP3QRS');
  expect(shown_code('K7MP3')).toBe('K7MP-3');
  expect(shown_code('K7M')).toBe('K7M');
});
