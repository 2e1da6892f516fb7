/** A new step begins at its top, for eyes, and at its heading, for screen readers. */
export function arrive(heading: HTMLElement): void {
  heading.tabIndex = -1;
  window.scrollTo(0, 0);
  heading.focus({ preventScroll: true });
}
