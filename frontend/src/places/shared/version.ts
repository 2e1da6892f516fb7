/** A new build waits until a person takes it (or all windows close), so that no round changes build on the way. */
export async function take_new_version(): Promise<void> {
  const registration = await navigator.serviceWorker.getRegistration();
  if (!registration?.waiting) return;
  navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
  registration.waiting.postMessage('take');
}
