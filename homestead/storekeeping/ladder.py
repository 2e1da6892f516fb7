"""The use ladder: what is left to do with a piece, in order, each use with its caution and where it is from.

Twin: `frontend/src/storekeeping/ladder.ts`. Both run `fixtures/vectors/ladder*.json`. Rules told in docs/ladder.md.
"""

from __future__ import annotations

from collections.abc import Sequence

from homestead.storekeeping.rules import Group, Law, Question, Rules, Rung, Standing, Uses


def uses_of(rules: Rules, question: Question, groups: Sequence[Group] = (), law: Law | None = None) -> Uses:
    """All uses left for what is asked about, and those withheld with the reason; the strictest rule holds."""
    raise NotImplementedError


def parts_of(rules: Rules, crop: str, findings: Sequence[str]) -> list[str]:
    """Parts the table tells apart for this crop in this state, the stored part first."""
    raise NotImplementedError


def rung_of(rules: Rules, crop: str, standing: Sequence[Standing]) -> Rung:
    """Where a lot stands on the ladder (fold F18): best step of the stored part, lowered by standing findings."""
    raise NotImplementedError
