"""One measured figure beside its budget, and the table of them."""

from __future__ import annotations

import json
import os
from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

#: lines of a part's output that the whole run reads
MARK = "TOLD "


@dataclass(frozen=True)
class Told:
    """`most` is the budget in `unit`, None where there is none; `beside` says what else was measured."""

    what: str
    measured: float
    most: float | None
    unit: str
    beside: str = ""

    @property
    def ratio(self) -> float | None:
        return None if self.most is None else self.measured / self.most

    @property
    def verdict(self) -> str:
        if self.ratio is None:
            return "no budget"
        return "yes" if self.ratio <= 1 else f"no, {self.ratio:.2f} times"

    def cells(self) -> tuple[str, ...]:
        ratio = "" if self.ratio is None else f"{self.ratio:.2f}"
        budget = "" if self.most is None else f"{figure(self.most)} {self.unit}"
        measured = f"{figure(self.measured)} {self.unit}"
        return self.what, measured, ratio, budget, self.verdict, self.beside


def figure(number: float) -> str:
    return f"{number:,.0f}" if number >= 20 else f"{number:.2g}" if number < 1 else f"{number:.1f}"


def table(rows: Sequence[Told]) -> str:
    head = ("what", "measured", "ratio", "budget", "holds", "beside")
    lines = [head, ("---",) * len(head), *(row.cells() for row in rows)]
    return "\n".join(f"| {' | '.join(line)} |" for line in lines)


def tell(rows: Iterable[Told]) -> None:
    """Print the table, and each row once more so that `python -m tests.bench` can put all parts together."""
    rows = list(rows)
    print(table(rows))
    for row in rows:
        print(MARK + json.dumps(asdict(row)), flush=True)


def heard(output: str) -> list[Told]:
    lines = [line for line in output.splitlines() if line.startswith(MARK)]
    return [Told(**json.loads(line[len(MARK) :])) for line in lines]


def load() -> str:
    """How many programs wanted a processor, in the last minute, and how many there are."""
    return f"{Path('/proc/loadavg').read_text().split()[0]} on {os.cpu_count()} cores"


def p95(times: Sequence[float]) -> float:
    """Of at least 20 times, the one that 95 % are not above."""
    return sorted(times)[max(0, -(-len(times) * 95 // 100) - 1)]
