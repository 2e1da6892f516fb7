"""What a notice, a mail and a calendar say, in the household's language. No amounts, no people, no notes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class Words:
    calendar: str
    walk: str
    minutes: str
    tonight: str
    today: str
    nothing_secret: str
    one_thing: str
    things: str
    of_them_tonight: str
    new_tonight: str
    chores: Mapping[str, str]
    a_chore: str


EN = Words(
    calendar="Winter Rounds",
    walk="Walk: {space}",
    minutes="about {minutes} min",
    tonight="Before dark",
    today="Today",
    nothing_secret="More on your phone, in Rounds. This notice can be switched off there, under Household.",
    one_thing="1 thing for you today",
    things="{n} things for you today",
    of_them_tonight=", {n} before dark",
    new_tonight="Something is to be done before dark: see Rounds.",
    chores={
        "carry_out": "What was decided is to be done",
        "decide": "One waits for a decision",
        "pick_over": "A lot is to be picked over",
        "turn_heap": "Turn the heap",
        "empty_stash": "Empty the stash",
        "air": "Air: {space}",
        "vent": "Air for the night: {space}",
        "frost": "Against frost: {space}",
        "shut_in": "Shut the animals in",
    },
    a_chore="A chore",
)
DE = Words(
    calendar="Winter Rounds",
    walk="Gang: {space}",
    minutes="etwa {minutes} min",
    tonight="Vor dem Dunkelwerden",
    today="Heute",
    nothing_secret="Mehr auf dem Telefon, unter Gänge. Dort lässt es sich unter Haushalt auch abstellen.",
    one_thing="Heute 1 Sache für dich",
    things="Heute {n} Sachen für dich",
    of_them_tonight=", {n} vor dem Dunkelwerden",
    new_tonight="Vor dem Dunkelwerden ist etwas zu tun: siehe Gänge.",
    chores={
        "carry_out": "Entschiedenes ist zu tun",
        "decide": "Eines wartet auf eine Entscheidung",
        "pick_over": "Ein Posten ist durchzusehen",
        "turn_heap": "Den Haufen umsetzen",
        "empty_stash": "Den Topfvorrat leeren",
        "air": "Lüften: {space}",
        "vent": "Für die Nacht lüften: {space}",
        "frost": "Gegen Frost: {space}",
        "shut_in": "Die Tiere einsperren",
    },
    a_chore="Eine Arbeit",
)


def words_in(language: str) -> Words:
    """English where the language is not spoken here."""
    return DE if language.startswith("de") else EN
