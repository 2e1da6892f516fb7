"""Runs a program and writes down which named functions it called: `python watched.py NAMED CALLED PROGRAM`.

NAMED holds lines `path qualified.name`, paths from the root of the tree; each call of one is added to
CALLED. PROGRAM is a module with its arguments, as for `python -m`.
"""

from __future__ import annotations

import runpy
import sys
import threading
from pathlib import Path
from types import CodeType, FrameType

BASE = Path(__file__).resolve().parents[2]


class Watch:
    """A profiler (sys.setprofile) that knows functions by file and qualified name."""

    def __init__(self, named: Path, called: Path) -> None:
        self._named = {tuple(line.split()) for line in named.read_text().splitlines()}
        self._called = called
        #: code that is none of them, so that each is looked at once
        self._others: set[CodeType] = set()

    def __call__(self, frame: FrameType, event: str, _: object) -> None:
        code = frame.f_code
        if event != "call" or code in self._others:
            return
        name = (code.co_filename.removeprefix(f"{BASE}/"), code.co_qualname)
        if name not in self._named:
            self._others.add(code)
            return
        with self._called.open("a") as book:
            book.write(" ".join(name) + "\n")


def main() -> None:
    named, called, module, *arguments = sys.argv[1:]
    watch = Watch(Path(named), Path(called))
    threading.setprofile(watch)
    sys.setprofile(watch)
    sys.argv = [module, *arguments]
    sys.path[0] = str(BASE)
    runpy.run_module(module, run_name="__main__", alter_sys=True)


if __name__ == "__main__":
    main()
