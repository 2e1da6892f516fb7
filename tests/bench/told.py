"""One measured figure beside its budget, and the table of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Told:
    """`most` is the budget in `unit`; `beside` says what else was measured in the same run."""

    what: str
    measured: float
    most: float
    unit: str
    beside: str = ""

    @property
    def holds(self) -> bool:
        return self.measured <= self.most

    def cells(self) -> tuple[str, str, str, str]:
        ratio = self.measured / self.most
        measured = f"{figure(self.measured)} {self.unit}" + (f" ({self.beside})" if self.beside else "")
        budget = f"{figure(self.most)} {self.unit}"
        return self.what, measured, budget, "yes" if self.holds else f"no, {ratio:.2f} times"


def figure(number: float) -> str:
    return f"{number:,.0f}" if number >= 20 else f"{number:.2g}" if number < 1 else f"{number:.1f}"


def table(rows: Sequence[Told]) -> str:
    head = ("what", "measured", "budget", "holds")
    lines = [head, ("---",) * 4, *(row.cells() for row in rows)]
    return "\n".join(f"| {' | '.join(line)} |" for line in lines)


def p95(times: Sequence[float]) -> float:
    """Of at least 20 times, the one that 95 % are not above."""
    return sorted(times)[max(0, -(-len(times) * 95 // 100) - 1)]
