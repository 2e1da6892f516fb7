"""Why something cannot be done: a code for the phone and a sentence that says what to do."""

from __future__ import annotations

from typing import Any


class CannotDo(Exception):
    """Raised by actions. `facts` fill the phone's own sentence."""

    def __init__(self, code: str, message: str, **facts: Any) -> None:
        super().__init__(message)
        self.code = code
        self.message = message
        self.facts = facts
