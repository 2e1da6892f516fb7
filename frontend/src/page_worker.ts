/** The page's side of the service worker: register it, and survive a part of the build that is gone. */

const RELOADED = 'rounds-reloaded';

export function register_worker(): void {
  if ('serviceWorker' in navigator) void navigator.serviceWorker.register('/sw.js');
}

/**
 * A part of this build that is neither in the cache nor on the server any more: load the page anew, once, and only
 * online and with nothing unsaved on it.
 */
export function survive_missing_parts(unsaved: () => boolean): void {
  window.addEventListener('vite:preloadError', (event) => {
    if (!navigator.onLine || unsaved() || sessionStorage.getItem(RELOADED) !== null) return;
    event.preventDefault();
    sessionStorage.setItem(RELOADED, '1');
    location.reload();
  });
}

/** Something typed that was not sent: drafts are on the phone at each step, half a field is not. */
export function something_typed(): boolean {
  const fields = document.querySelectorAll<HTMLInputElement | HTMLTextAreaElement>('input, textarea');
  return [...fields].some((field) => field.value !== field.defaultValue);
}
