"""What may go to which animal: the feed rules, the law and fold F20 in one answer.

Twin: `frontend/src/storekeeping/feeding.ts`. The server's check at push and the phone's forms ask the same
functions, so that what one offers the other never refuses.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from homestead.storekeeping.rules import FeedAnswer, Group, Law, Question, Refusal, Rules


def may_feed(rules: Rules, question: Question, group: Group, law: Law | None = None) -> FeedAnswer:
    """May this group have it?"""
    raise NotImplementedError


def check_went(
    rules: Rules,
    went: Mapping[str, Any],
    *,
    crop: str | None,
    findings: Sequence[str],
    whole: bool,
    groups: Mapping[str, Group],
    law: Law | None,
) -> Refusal | None:
    """Why this `went` (fold section 2, W) must not be written, or None.

    `whole`: the piece left its lot uncut (take, cull, out of a round, decision): then an absent `cut_in` means it
    never saw a kitchen and an absent `part` the whole piece; else both are not known. `groups` by id (text).
    A went with `accident` is never refused here: it tells what happened; who may write it is the caller's to ask.
    `crop` None: mixed scraps.
    """
    raise NotImplementedError
