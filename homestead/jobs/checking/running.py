"""Runs the steps, two at a time where they may, and tells of each how long it took and what went wrong."""

from __future__ import annotations

import os
import re
import subprocess
import tempfile
import time
from collections.abc import Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

from homestead.jobs.checking.steps import Step

COUNT = re.compile(r"(\d+) (passed|failed|errors?|skipped|xfailed)\b")
#: pytest's last line: "2 warnings, 1 error in 25.19s"
CLOSING = re.compile(r"\d+ \w+(, \d+ \w+)* in [\d.]+s\b")


@dataclass(frozen=True)
class Outcome:
    step: Step
    code: int
    seconds: float
    output: str

    @property
    def counted(self) -> Mapping[str, int]:
        """What the last lines of a test runner say: {"passed": 12, "failed": 1}."""
        if not self.step.counts:
            return {}
        closing = [line for line in self.output.splitlines() if _closes(line)]
        return (
            {word.rstrip("s"): int(number) for number, word in COUNT.findall(closing[-1])} if closing else {}
        )

    @property
    def is_green(self) -> bool:
        """A test that was left out in silence is no green one."""
        return self.code == 0 and not {"skipped", "xfailed"} & set(self.counted)


def _closes(line: str) -> bool:
    plain = line.strip().strip("=").strip()
    return plain.startswith("Tests ") or bool(CLOSING.match(plain))


def run_all(steps: Sequence[Step], environment: Mapping[str, str]) -> list[Outcome]:
    shared = [step for step in steps if not step.whole_machine]
    with ThreadPoolExecutor(max_workers=os.cpu_count() or 2) as two:
        outcomes = list(two.map(lambda step: run(step, environment), shared))
    return outcomes + [run(step, environment) for step in steps if step.whole_machine]


def run(step: Step, environment: Mapping[str, str]) -> Outcome:
    """Output is kept aside and shown whole when the step failed, its end when it counts tests."""
    began = time.monotonic()
    with tempfile.TemporaryFile("w+") as kept:
        code = subprocess.run(
            step.command,
            cwd=step.folder,
            env={**environment, **step.environment},
            stdin=subprocess.DEVNULL,
            stdout=kept,
            stderr=subprocess.STDOUT,
        ).returncode
        kept.seek(0)
        outcome = Outcome(step, code, time.monotonic() - began, kept.read())
    print(told(outcome), flush=True)
    return outcome


def told(outcome: Outcome) -> str:
    line = f"{'ok  ' if outcome.is_green else 'FAIL'} {outcome.step.name:<14} {outcome.seconds:6.1f} s"
    if not outcome.is_green:
        return f"{line}\n{outcome.output}"
    if outcome.step.counts:
        return f"{line}\n" + "\n".join(outcome.output.rstrip().splitlines()[-12:])
    return line
