"""The files of the tree, as far as they are ours: what `.gitignore` names is left out."""

from __future__ import annotations

import os
from collections.abc import Iterator
from fnmatch import fnmatch
from pathlib import Path

BASE = Path(__file__).resolve().parents[2]


def ignored(path: Path) -> bool:
    """As far as this tree's `.gitignore` goes: a name anywhere, or a path from the top; `*` in either."""
    inside = path.relative_to(BASE).as_posix()
    lines = (line.rstrip("/") for line in (BASE / ".gitignore").read_text().split())
    return path.name == ".git" or any(fnmatch(inside if "/" in line else path.name, line) for line in lines)


def own_files(*suffixes: str) -> Iterator[Path]:
    for folder, folders, names in os.walk(BASE):
        folders[:] = [name for name in folders if not ignored(Path(folder, name))]
        for path in (Path(folder, name) for name in names):
            if not ignored(path) and (not suffixes or path.suffix in suffixes):
                yield path
