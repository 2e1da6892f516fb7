"""Times the fold of 20,000 entries and one entry more, in both languages: `python -m tests.bench.fold`.

Beside each stands the time the same program takes to read the same bytes as JSON, so that the ratio tells
more than the machine does. Budgets: 100 ms in the browser (Node stands in for it), 300 ms in Python, one more
under 1 ms. Times are of the processor, so that other programs do not count.
"""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median
from typing import Any

from homestead.storekeeping.fold import fold_all, fold_on, lot_at, lot_ids
from tests.bench.many_entries import SETTING, many_entries
from tests.bench.told import Told, tell

RUNS = 7
TODAY = "2026-01-10"


def median_ms(work: Callable[[], Any], runs: int = RUNS) -> float:
    times = []
    for _ in range(runs):
        start = time.process_time()
        work()
        times.append((time.process_time() - start) * 1000)
    return median(times)


def one_more_ms(lines: list[dict[str, Any]], more: list[dict[str, Any]]) -> float:
    """The median over the last entries, each added to what is folded."""
    folded = fold_all(lines, SETTING)
    times = []
    for line in more:
        start = time.process_time()
        fold_on(folded, line)
        times.append((time.process_time() - start) * 1000)
    return median(times)


def in_python(text: str) -> dict[str, float]:
    lines = json.loads(text)
    first_ms = median_ms(lambda: fold_all(lines, SETTING), 1)
    folded = fold_all(lines, SETTING)
    return {
        "json_ms": median_ms(lambda: json.loads(text)),
        "first_ms": first_ms,
        "fold_ms": median_ms(lambda: fold_all(lines, SETTING)),
        "one_more_ms": one_more_ms(lines[:-500], lines[-500:]),
        "shown_ms": median_ms(lambda: [lot_at(folded, lot, TODAY) for lot in lot_ids(folded)], 3),
    }


def in_node(node: str, text: str) -> dict[str, float]:
    script = Path(__file__).with_name("fold.ts")
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "lines.json"
        file.write_text(json.dumps({"setting": SETTING, "today": TODAY, "text": text}), encoding="utf-8")
        told = subprocess.run([node, str(script), str(file)], check=True, capture_output=True, text=True)
    answer: dict[str, float] = json.loads(told.stdout)
    return answer


def rows(where: str, budget_ms: float, told: dict[str, float]) -> list[Told]:
    beside = (
        f"{told['fold_ms'] / told['json_ms']:.2f} x reading the same JSON ({told['json_ms']:.0f} ms); "
        f"the first time {told['first_ms']:.0f} ms; all lots shown {told['shown_ms']:.0f} ms"
    )
    return [
        Told(f"fold of 20,000 entries, {where}", told["fold_ms"], budget_ms, "ms", beside),
        Told(f"one more entry folded, {where}", told["one_more_ms"], 1, "ms"),
    ]


def main() -> None:
    text = json.dumps(many_entries())
    node = shutil.which("node")
    if node is None:
        sys.exit("Node is not on PATH: the phone's twin was not timed")
    browser = rows("Node, the browser's engine", 100, in_node(node, text))
    tell([*browser, *rows("Python", 300, in_python(text))])


if __name__ == "__main__":
    main()
