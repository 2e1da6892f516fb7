/** Bars fixed at the foot tell the page how high they are, so that it leaves room for them however large the text is. */
import type { Attachment } from 'svelte/attachments';

export const room_for =
  (name: '--foot' | '--reach'): Attachment<HTMLElement> =>
  (bar) => {
    const root = document.documentElement.style;
    const measure = (): void => {
      const fixed = getComputedStyle(bar).position === 'fixed';
      root.setProperty(name, fixed ? `${bar.offsetHeight}px` : '0px');
    };
    const watching = new ResizeObserver(measure);
    watching.observe(bar);
    measure();
    return () => {
      watching.disconnect();
      root.setProperty(name, '0px');
    };
  };
