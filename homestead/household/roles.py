"""Who may push what. A kind or record type names one of these sets; the role of the line's person decides."""

from __future__ import annotations

import datetime as dt
from typing import Final, Literal

Role = Literal["keeper", "adult", "rounds", "child", "minder"]
#: what a chore may ask of whoever does it
Need = Literal["ladder", "knife", "lifting", "not_alone"]

KEEPER: Final = frozenset({"keeper"})
GROWN: Final = frozenset({"keeper", "adult"})
#: grown people and older children who walk rounds
WALKERS: Final = GROWN | {"rounds"}
#: what small children do too
FAMILY: Final = WALKERS | {"child"}
#: what whoever minds the place does, children not
WALKERS_AND_MINDER: Final = WALKERS | {"minder"}
EVERYONE: Final = FAMILY | {"minder"}

ROLES: Final[tuple[Role, ...]] = ("keeper", "adult", "rounds", "child", "minder")

#: a minder's lines are taken so long after the end date
MINDER_GRACE: Final = dt.timedelta(days=30)


def strikes_anyones(role: str) -> bool:
    """Grown people strike out any entry; everyone else their own only."""
    return role in GROWN


def needs_switch(role: str) -> bool:
    """Older children decide, and send to animals, only where their person's switch says so."""
    return role == "rounds"
