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
from homestead.reference import phone

WIRE = BASE / "frontend" / "src" / "wire"
OPENAPI_TYPESCRIPT = BASE / "frontend" / "node_modules" / "openapi-typescript" / "bin" / "cli.js"


@dataclass(frozen=True)
class Made:
    """`make` writes its files anew into the folder it is given. `alone`: no other file may stand there."""

    folder: Path
    make: Callable[[Path], object]
    alone: bool = False


def schema(folder: Path) -> None:
    call_command("spectacular", "--validate", "--fail-on-warn", file=str(folder / "schema.yaml"))


def types(folder: Path) -> None:
    """From the schema that is kept, whose own drift is judged apart."""
    command = [
        str(node.NODE),
        str(OPENAPI_TYPESCRIPT),
        str(WIRE / "schema.yaml"),
        "-o",
        str(folder / "schema.d.ts"),
    ]
    subprocess.run(
        command, check=True, cwd=BASE / "frontend", stdout=subprocess.DEVNULL, env=node.environment()
    )


MADE = (Made(WIRE, schema), Made(WIRE, types), Made(phone.FOLDER, phone.write, alone=True))


def make_anew() -> None:
    for made in MADE:
        made.make(made.folder)


def drifted() -> Iterator[str]:
    """For each file that is not as it would be made now: its name and the first lines that differ."""
    for made in MADE:
        with tempfile.TemporaryDirectory() as folder:
            made.make(Path(folder))
            yield from differing(made.folder, Path(folder), made.alone)


def differing(kept: Path, fresh: Path, alone: bool) -> Iterator[str]:
    names = _names(fresh) | (_names(kept) if alone else set())
    for name in sorted(names):
        before, after = _lines(kept / name), _lines(fresh / name)
        if before != after:
            lines = difflib.unified_diff(before, after, "kept", "made now", lineterm="", n=1)
            told = "\n".join(line[:200] for line in list(lines)[:30])
            yield f"{kept.name}/{name} is out of date:\n{told}"


def _names(folder: Path) -> set[str]:
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


def _lines(path: Path) -> list[str]:
    return path.read_text(encoding="utf-8").splitlines() if path.exists() else []
