"""How a cook comes to the pages under what is on the turn: dishes, clocks, what to give away."""

from __future__ import annotations

from tests.journeys.ways import Here, at


def to_dish_begun(here: Here) -> None:
    """A dish of one's own, half written."""
    at("/kitchen/dishes/new", "Kitchen")(here)
    here.page.get_by_label("What it is called").fill("Stew of the week")
    here.page.get_by_role("combobox", name="Another crop").select_option(label="Carrot")
    here.page.get_by_role("group", name="Carrot").wait_for()


def to_dish_changed(here: Here) -> None:
    """Kept, opened from the list of one's own, and taken in hand again."""
    here.key("Keep the dish").click()
    here.key("Stew of the week").click()
    here.key("Change it").click()
    here.key("Take it off the list").wait_for()


def to_gift(here: Here) -> None:
    """What stands first among what may be given, with the note that goes with it."""
    here.page.get_by_role("list", name="What to give away while it is good").get_by_role("link").first.click()
    here.page.get_by_text("The note to go with it").wait_for()
