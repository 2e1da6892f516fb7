"""Files that are made from other files and kept in the tree: is each what it would be if made now?"""

from __future__ import annotations

import difflib
import subprocess
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from django.core.management import call_command

from homestead.environment import BASE
from homestead.jobs import node

WIRE = BASE / "frontend" / "src" / "wire"
OPENAPI_TYPESCRIPT = BASE / "frontend" / "node_modules" / "openapi-typescript" / "bin" / "cli.js"


@dataclass(frozen=True)
class Made:
    """`make` writes the file anew at the path it is given."""

    path: Path
    make: Callable[[Path], None]


def schema(to: Path) -> None:
    call_command("spectacular", "--validate", "--fail-on-warn", file=str(to))


def types(to: Path) -> None:
    command = [str(node.NODE), str(OPENAPI_TYPESCRIPT), str(WIRE / "schema.yaml"), "-o", str(to)]
    subprocess.run(
        command, check=True, cwd=BASE / "frontend", stdout=subprocess.DEVNULL, env=node.environment()
    )


MADE = (Made(WIRE / "schema.yaml", schema), Made(WIRE / "schema.d.ts", types))


def drifted() -> Iterator[str]:
    """For each file that is not as it would be made now: its name and the first lines that differ."""
    with tempfile.TemporaryDirectory() as folder:
        for made in MADE:
            fresh = Path(folder) / made.path.name
            made.make(fresh)
            if difference := _difference(made.path, fresh):
                yield f"{made.path.relative_to(BASE)} is out of date:\n{difference}"


def make_anew() -> None:
    for made in MADE:
        made.make(made.path)


def _difference(kept: Path, fresh: Path) -> str:
    before = kept.read_text().splitlines() if kept.exists() else []
    lines = difflib.unified_diff(before, fresh.read_text().splitlines(), "kept", "made now", lineterm="", n=1)
    return "\n".join(list(lines)[:30])
