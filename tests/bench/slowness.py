"""A page whose processor is slowed, and how many others wanted the processor meanwhile."""

from __future__ import annotations

from playwright.sync_api import Page

#: loops of about two milliseconds: the quickest had the processor to itself, the others shared it
SHARED = """() => {
  const loop = () => {
    const began = performance.now();
    let sum = 0;
    for (let i = 0; i < 2e6; i += 1) sum += i % 7;
    return [performance.now() - began, sum];
  };
  for (let i = 0; i < 50; i += 1) loop();
  const times = Array.from({ length: 300 }, () => loop()[0]);
  return times.reduce((sum, one) => sum + one, 0) / times.length / Math.min(...times);
}"""


def shared(page: Page) -> str:
    """How many times longer this page waits for a processor than it would alone, to read its times by."""
    slowed(page, 1)
    return f"processor shared {page.evaluate(SHARED):.1f} x"


def slowed(page: Page, times: int) -> None:
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": times})
