"""Every check there is, in the order they begin. A step that takes the whole machine runs alone."""

from __future__ import annotations

import sys
import sysconfig
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from homestead.environment import BASE
from homestead.jobs import node
from homestead.jobs.checking.services import Service

FRONT = BASE / "frontend"
MODULES = FRONT / "node_modules"
SCRIPTS = Path(sysconfig.get_path("scripts"))


@dataclass(frozen=True)
class Step:
    """`counts` says that its last lines tell how many tests passed."""

    name: str
    command: Sequence[str]
    folder: Path = BASE
    whole_machine: bool = False
    counts: bool = False
    environment: dict[str, str] = field(default_factory=dict)


def python(name: str, *arguments: str) -> Step:
    return Step(name, [sys.executable, *arguments])


def manage(name: str, *arguments: str) -> Step:
    return Step(name, [sys.executable, "manage.py", *arguments])


def front(name: str, script: str, *arguments: str, counts: bool = False) -> Step:
    return Step(name, [str(node.NODE), str(MODULES / script), *arguments], folder=FRONT, counts=counts)


def all_steps(missing: Iterable[Service]) -> list[Step]:
    """The long ones first, so that the short ones fill the gaps."""
    return [
        front("vitest", "vitest/vitest.mjs", "run", counts=True),
        python("mypy", "-m", "mypy"),
        python("ruff", "-m", "ruff", "check", "."),
        python("ruff format", "-m", "ruff", "format", "--check", "."),
        Step("layers", [str(SCRIPTS / "lint-imports"), "--no-cache"]),
        manage("migrations", "makemigrations", "--check", "--dry-run"),
        manage("drift", "drift"),
        front("eslint", "eslint/bin/eslint.js", "."),
        front(
            "svelte-check",
            "svelte-check/bin/svelte-check",
            "--tsconfig",
            "./tsconfig.json",
            "--fail-on-warnings",
        ),
        front("tsc worker", "typescript/bin/tsc", "-p", "tsconfig.worker.json", "--noEmit"),
        front("tsc simulator", "typescript/bin/tsc", "-p", "tsconfig.simulator.json", "--noEmit"),
        front("prettier", "prettier/bin/prettier.cjs", "--check", "."),
        pytest(missing),
    ]


def pytest(missing: Iterable[Service]) -> Step:
    """Tests that need what is not here are left out by their marker, and named at the end."""
    kept = " and ".join(f"not {service.marker}" for service in missing)
    command = [sys.executable, "-m", "pytest", "-q", "-n", "2", "--dist", "worksteal", "-m", kept]
    return Step("pytest", command, whole_machine=True, counts=True)
