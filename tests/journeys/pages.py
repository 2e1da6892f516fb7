"""The pages that the app has, as its lists of routes name them, and which of them an address opens."""

from __future__ import annotations

import re
from functools import cache

from tests.journeys.home import BASE

PLACES = BASE / "frontend" / "src" / "places"
LIST = re.compile(r"export const (\w+): PlacePages = \{(.*?)^\};", re.DOTALL | re.MULTILINE)
LOADED = re.compile(r"'([^']+)': \(\) => import\(")
#: which phones have the pages of a list: those of a household, one that belongs to none yet, a minder's
WHOSE = {"routes": "", "first_routes": "first:", "minder_routes": "minder:"}

#: a page that puts another in its place at once: a code leaves the address, a round begun is walked
LEADS_TO = {
    "/join/:code": "/join",
    "first:/join/:code": "first:/join",
    "/rounds/begin/:space/:minutes?": "/rounds/walk/:round",
}


@cache
def routes() -> tuple[str, ...]:
    """Every route of every list, in the order the router tries them: `/store/lot/:id`, `minder:*`."""
    found = [
        f"{WHOSE[name]}{path}"
        for lists in sorted(PLACES.glob("*/*.ts"))
        for name, pages in LIST.findall(lists.read_text())
        for path in LOADED.findall(pages)
    ]
    assert found
    return tuple(found)


def _parted(address: str) -> tuple[str, str]:
    """Whose it is, and the address without what is asked of it: `minder:`, `/walk/3`."""
    told = re.fullmatch(r"(\w+:)?(/.*?|\*)(\?\w+=.*)?", address)
    assert told, address
    return told[1] or "", told[2]


def whose(address: str) -> str:
    """`minder:`; nothing for a household's."""
    return _parted(address)[0]


def _pattern(path: str) -> str:
    """A route as an expression; `/:id?` may be absent, as svelte-spa-router reads it."""
    may_be_absent = re.sub(r"/:\w+\?", "(?:/[^/]+)?", path)
    return re.sub(r":\w+", "[^/]+", may_be_absent).replace("*", ".*")


def opened_by(address: str) -> str | None:
    """The first route that an address fits, or that it names itself; none where the app has no such page."""
    holder, path = _parted(address)
    for route in routes():
        owner, own = _parted(route)
        if owner == holder and re.fullmatch(_pattern(own), path):
            return route
    return None
