"""Whoever looks at every screen looks at every page: none of the app's is left out of the list."""

from __future__ import annotations

from tests.journeys import pages, screens


def test_every_page_of_the_app_is_shown_by_a_screen() -> None:
    shown = {screen.route for story in screens.STORIES.values() for screen in story}
    assert [route for route in pages.routes() if pages.LEADS_TO.get(route, route) not in shown] == []


def test_no_screen_tells_a_page_that_the_app_does_not_have() -> None:
    told = [screen for story in screens.STORIES.values() for screen in story if screen.shows]
    assert [screen.name for screen in told if screen.route != screen.shows] == []


def test_no_two_screens_have_one_name() -> None:
    """Their pictures would lie over each other."""
    names = [screen.name for story in screens.STORIES.values() for screen in story]
    assert sorted(names) == sorted(set(names))


def test_an_address_opens_the_first_route_that_it_fits() -> None:
    assert pages.opened_by("/join/who") == "/join/who"
    assert pages.opened_by("/join/7KQ2M4XD") == "/join/:code"
    assert pages.opened_by("first:/join/7KQ2M4XD") == "first:/join/:code"
    assert pages.opened_by("/rounds/begin/01") == "/rounds/begin/:space/:minutes?"
    assert pages.opened_by("/find?q=loft") == "/find"
    assert pages.opened_by("minder:/") == "minder:*"
    assert pages.whose("minder:*") == "minder:"
    assert pages.whose("/rounds") == ""
    assert pages.opened_by("/no-such-page") is None
