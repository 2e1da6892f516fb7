/** The marks: one pen of 2.4 in a field of 32, round ends. Always beside a word or an accessible name. */
export interface Stroke {
  readonly d: string;
  readonly filled?: boolean;
  readonly width?: number;
}

export const marks = {
  house: [{ d: 'M3 15 16 4l13 11' }, { d: 'M6.5 12.5V28h19V12.5' }, { d: 'M13 28v-9h6v9' }],
  lantern: [
    { d: 'M11 10h10l2.5 16h-15z' },
    { d: 'M12 10c0-7 8-7 8 0' },
    { d: 'M9 29h14' },
    { d: 'M16 23c-3-2.4-1-5 0-6.5 1 1.5 3 4.1 0 6.5z', filled: true },
  ],
  sun: [
    { d: 'M4 23h24' },
    { d: 'M8.5 23a7.5 7.5 0 0 1 15 0' },
    { d: 'M16 11V6M7.5 14.5 4.5 11M24.5 14.5l3-3.5' },
    { d: 'M9 27.5h14' },
  ],
  photo: [{ d: 'M3 9h7l2-4h8l2 4h7v17H3z' }, { d: 'M10.5 17a5.5 5.5 0 1 0 11 0a5.5 5.5 0 1 0-11 0z' }],
  minus: [{ d: 'M6 16h20', width: 3.5 }],
  plus: [{ d: 'M6 16h20M16 6v20', width: 3.5 }],
  back: [{ d: 'M20 5 9 16l11 11' }],
  send: [{ d: 'M16 27V6M8 13l8-8 8 8' }],
  sent: [{ d: 'm5 17 7 8L27 7' }],
  find: [{ d: 'M5 13.5a8.5 8.5 0 1 0 17 0a8.5 8.5 0 1 0-17 0z' }, { d: 'm20 20 8 8' }],
  needs: [{ d: 'M7 29V4' }, { d: 'M7 5l19 6-19 7z', filled: true }],
  pail: [{ d: 'M6 11h20l-3 17H9z' }, { d: 'M6 11C6 0 26 0 26 11' }],
  string: [{ d: 'M16 3c-7 6-7 12 0 13s7 7 0 13' }],
} as const satisfies Record<string, readonly Stroke[]>;

export type MarkName = keyof typeof marks;
