/** Where the app runs, for the sentences of the first run. */

interface Shown {
  readonly userAgent: string;
  readonly maxTouchPoints: number;
  readonly standalone?: boolean;
}

/** A browser tab on iOS: it forgets after days without a visit, and has another store than the app on the home screen. */
export function is_ios_tab(shown: Shown, display_standalone: boolean): boolean {
  const ios =
    /iP(hone|ad|od)/.test(shown.userAgent) || (/Macintosh/.test(shown.userAgent) && shown.maxTouchPoints > 1);
  return ios && shown.standalone !== true && !display_standalone;
}

export const ios_tab_here = (): boolean =>
  is_ios_tab(navigator, matchMedia('(display-mode: standalone)').matches);

/** Letters and figures of a pairing code as it was made: no O, I or L, so those typed are the figures 0 and 1. */
export const tidy_code = (typed: string): string =>
  typed
    .toLocaleUpperCase('en')
    .replaceAll('O', '0')
    .replaceAll(/[IL]/g, '1')
    .replaceAll(/[^0-9A-Z]/g, '')
    .slice(0, 8);

export const shown_code = (code: string): string =>
  code.length > 4 ? `${code.slice(0, 4)}-${code.slice(4)}` : code;
