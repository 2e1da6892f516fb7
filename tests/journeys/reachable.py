"""Whether everything that acts can be come to and is not covered: what keyboard and large text need."""

from __future__ import annotations

from playwright.sync_api import Page

#: Each thing that acts is given the focus, as the tab key gives it; the browser scrolls it into sight.
#: Then the middle of what is seen of it must be its own: no bar at the foot lies over it. WCAG 2.2, 2.4.11.
COVERED = """async () => {
  // The bars at the foot tell the page how high they are a frame after the text has grown.
  await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  const within = document.querySelector('dialog[open]') ?? document;
  const acts = [...within.querySelectorAll('a[href], button, input, select, textarea, summary')];
  const shown = (one) =>
    one.checkVisibility() && !one.closest('.aside') && !one.disabled && one.tabIndex >= 0;
  const wrong = [];
  const at = { left: scrollX, top: scrollY };
  for (const one of acts.filter(shown)) {
    one.focus();
    if (document.activeElement !== one) {
      wrong.push(`no focus: ${one.outerHTML.slice(0, 90)}`);
      continue;
    }
    const box = one.getClientRects()[0];
    const left = Math.max(0, box.left), right = Math.min(innerWidth, box.right);
    const top = Math.max(0, box.top), bottom = Math.min(innerHeight, box.bottom);
    const there = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
    const own = there && (one.contains(there) || there.closest('label')?.contains(one));
    if (right <= left || bottom <= top || !own) {
      const by = there ? there.outerHTML.slice(0, 60) : 'nothing there';
      wrong.push(`covered: ${one.outerHTML.slice(0, 90)} by ${by}`);
    }
  }
  document.activeElement?.blur?.();
  scrollTo(at);
  return wrong;
}"""


def covered(page: Page) -> list[str]:
    """Things that act and get no focus, or that something else lies over once they have it."""
    found: list[str] = page.evaluate(COVERED)
    return found
