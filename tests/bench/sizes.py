"""What a first visit loads and what all places together do, compressed: `python -m tests.bench.sizes`.

Reads the built frontend (`ROUNDS_DIST`). The first load is the page with what it names, and the modules of
Rounds with all they import in turn; a walk is opened by a touch later, and has a line of its own.
"""

from __future__ import annotations

import gzip
import os
import re
from collections.abc import Iterable
from pathlib import Path

from tests.bench.told import Told, tell

BASE = Path(__file__).resolve().parents[2]
IMPORTED = re.compile(r"""(?:from|import)\s*["']\./([\w.-]+\.js)["']""")
NAMED = re.compile(r'assets/([\w.-]+\.js)"')


def dist() -> Path:
    return Path(os.environ.get("ROUNDS_DIST", BASE / "frontend" / "dist"))


def measured() -> list[Told]:
    assets = dist() / "assets"
    every = {file.name for file in assets.glob("*.js")}
    page = set(NAMED.findall((dist() / "index.html").read_text(encoding="utf-8")))
    shell = with_imports(assets, page)
    rounds = with_imports(assets, named(every, "Home"))
    walk = with_imports(assets, named(every, "WalkPage"))
    workers = sum(size_kb(file.read_bytes()) for file in dist().glob("*.js"))
    reader_kb = total(assets, named(every, "jsQR"))
    reader = f"{len(every)} files; {reader_kb:.0f} kB of it reads codes where the browser cannot"
    return [
        Told("first load, gzip JS: shell and Rounds", total(assets, shell | rounds), 120, "kB"),
        Told("the same with a walk opened", total(assets, shell | rounds | walk), None, "kB"),
        Told("all JS of every place, gzip", total(assets, every) + workers, 300, "kB", reader),
    ]


def named(every: Iterable[str], page: str) -> set[str]:
    """Chunks of a page: its name and a hash."""
    return {name for name in every if re.fullmatch(rf"{page}-[\w-]{{8}}\.js", name)}


def with_imports(assets: Path, first: set[str]) -> set[str]:
    found: set[str] = set()
    waiting = set(first)
    while waiting:
        name = waiting.pop()
        found.add(name)
        waiting |= set(IMPORTED.findall((assets / name).read_text(encoding="utf-8"))) - found
    return found


def total(assets: Path, names: Iterable[str]) -> float:
    return sum(size_kb((assets / name).read_bytes()) for name in names)


def size_kb(content: bytes) -> float:
    return len(gzip.compress(content, 9)) / 1000


if __name__ == "__main__":
    tell(measured())
