/** Browsers without idle times: so long after the first picture. */
const SOON_MS = 300;
const AT_LAST_MS = 2_000;

/** Resolves when what is on the screen is drawn and nobody is touching it, at the latest after two seconds. */
export const when_idle = (): Promise<void> =>
  new Promise((resolve) => {
    if (typeof requestIdleCallback === 'function')
      requestIdleCallback(() => resolve(), { timeout: AT_LAST_MS });
    else setTimeout(resolve, SOON_MS);
  });
