"""Every screen in both lights by axe-core: WCAG 2.0 to 2.2, A and AA, with its rule on the size of targets.

axe-core judges what a program can: names, roles, order, contrast, size; not whether words make sense. It
cannot judge text on a gradient, so pages are judged on their plain ground; the lit end of it stands in
look/contrast.test.ts.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Page

from tests.journeys import screens, ways
from tests.journeys.browsers import Phone
from tests.journeys.home import BASE, Home

pytestmark = pytest.mark.browser

AXE = BASE / "frontend" / "node_modules" / "axe-core" / "axe.min.js"
#: outside source: WCAG 2.2 as axe-core tags it; `target-size` (2.5.8) is off in axe unless asked for
ASKED = {
    "runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22a", "wcag22aa"]},
    "rules": {"target-size": {"enabled": True}},
    "resultTypes": ["violations"],
}
#: the grounds that shade from one tone into another, and the tone most of each has
PLAIN = """() => {
  const plain = { '.frame': '--ground', '.reach': '--ground', '.rung.on': '--mark' };
  for (const [shaded, tone] of Object.entries(plain))
    for (const one of document.querySelectorAll(shaded)) one.style.background = `var(${tone})`;
}"""

Phones = Callable[[str, str], Phone]


def violations(page: Page) -> list[str]:
    """What axe-core finds on the page as it stands: rule, element, why."""
    if not page.evaluate("() => 'axe' in window"):
        page.evaluate(AXE.read_text())
    page.evaluate(PLAIN)
    found: list[dict[str, Any]] = page.evaluate("asked => axe.run(document, asked)", ASKED)["violations"]
    return [
        f"{rule['id']}: {node['html'][:160]} ({' '.join(node['failureSummary'].split())[:240]})"
        for rule in found
        for node in rule["nodes"]
    ]


@pytest.mark.parametrize("story", screens.STORIES)
def test_no_screen_has_a_violation_in_either_light(story: str, home: Home, phone: Phones) -> None:
    screens.begin_story(story, home)
    url = f"http://localhost:{home.port}"
    one = phone("one", url)
    one.open()
    found: list[str] = []
    seen = 0
    for name, page in screens.told(story, ways.Here(one, lambda other: phone(other, url))):
        for light in ways.LIGHTS:
            screens.show(page, light)
            found += [f"{name}, {light}: {violation}" for violation in violations(page)]
            seen += 1
    assert seen == 2 * len(screens.STORIES[story])
    assert found == []


PLANTED = """() => {
  const put = (html) => document.querySelector('main').insertAdjacentHTML('beforeend', html);
  put('<img id="no-alt" src="/icons/mark-192.png">');
  put('<button id="no-name"></button>');
  put('<p id="pale">hardly to be read</p>');
  put('<p><button class="tiny">a</button><button class="tiny">b</button></p>');
  document.getElementById('pale').style.color = 'rgb(60, 50, 40)';
  for (const one of document.querySelectorAll('.tiny')) {
    one.style.all = 'unset';
    one.style.fontSize = '8px';
  }
}"""


def test_what_is_planted_is_found(home: Home, phone: Phones) -> None:
    """A check that cannot fail proves nothing: one fault of each sort, put in by hand, must be told."""
    page = phone("one", f"http://localhost:{home.port}").open()
    page.get_by_role("heading", level=1).wait_for()
    assert violations(page) == []
    page.evaluate(PLANTED)
    told = {violation.partition(":")[0] for violation in violations(page)}
    assert {"image-alt", "button-name", "color-contrast", "target-size"} <= told
