"""The page of sources, made from the formulas' docstrings and the reference tables: docs/sources.md."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from collections import Counter
from collections.abc import Callable, Iterator
from types import ModuleType
from typing import Any

import homestead.science
from homestead.reference.tables import Tables

TITLE = """# Sources

Made from the code and the tables by `python manage.py write_sources`; a test holds it to them.
Change those, not this.

What the words of evidence mean: **seen** in the place named; **derived** from seen figures or mathematics;
**memory**: recalled, no page seen; **common practice**: no source;
**ours**: a working value of the project, replaced by the household's own seasons as they come.
A number shown carries the weakest word that went into it.
"""
_SOURCE = re.compile(r"Sources?(?: of the forms)?:\s+(.+)", re.DOTALL)


def source_of(docstring: str) -> str | None:
    """What a docstring says after `Source:`, up to its paragraph's end; None if it names none."""
    found = _SOURCE.search(docstring)
    return " ".join(found.group(1).split("\n\n")[0].split()) if found else None


def formulas() -> Iterator[tuple[ModuleType, list[tuple[str, Callable[..., Any]]]]]:
    """Each module of science with its public functions, in the order they are written."""
    for found in pkgutil.iter_modules(homestead.science.__path__):
        module = importlib.import_module(f"homestead.science.{found.name}")
        yield (
            module,
            [
                (name, one)
                for name, one in vars(module).items()
                if not name.startswith("_")
                and inspect.isroutine(inspect.unwrap(one))
                and inspect.unwrap(one).__module__ == module.__name__
            ],
        )


def unsourced() -> list[str]:
    """Public functions whose docstring and module name no source."""
    return [
        f"{module.__name__}.{name}"
        for module, functions in formulas()
        for name, one in functions
        if not (source_of(one.__doc__ or "") or source_of(module.__doc__ or ""))
    ]


def page(tables: Tables) -> str:
    """The whole page."""
    parts = [TITLE, "## Formulas\n", *(_module(m, f) for m, f in formulas() if f), "## Tables\n"]
    return "\n".join([*parts, *(_table(tables, name) for name in _table_names(tables))])


def _module(module: ModuleType, functions: list[tuple[str, Callable[..., Any]]]) -> str:
    name = module.__name__.rsplit(".", 1)[1]
    about = (module.__doc__ or "").split("\n\n")[0]
    whole = source_of(module.__doc__ or "")
    lines = [f"### `{name}`\n", " ".join(about.split()) + (f" {whole}" if whole else "") + "\n"]
    lines += ["| formula | what it gives | source |", "| --- | --- | --- |"]
    lines += [_row(one, what) for one, what in functions]
    return "\n".join(lines) + "\n"


def _row(name: str, function: Callable[..., Any]) -> str:
    told = function.__doc__ or ""
    first = " ".join(told.split("Source:")[0].split("\n\n")[0].split())
    return f"| `{name}` | {_cell(first)} | {_cell(source_of(told) or 'as the module')} |"


def _cell(text: str) -> str:
    return text.replace("|", "\\|")


def _table_names(tables: Tables) -> list[str]:
    return [name for name in vars(tables) if isinstance(getattr(tables, name), tuple)]


def _table(tables: Tables, name: str) -> str:
    rows = getattr(tables, name)
    counted = Counter((_told(row, "source"), _told(row, "evidence")) for row in rows)
    lines = [f"### `{name}.csv`, {len(rows)} rows\n", "| source | evidence | rows |", "| --- | --- | --- |"]
    lines += [f"| {_cell(source)} | {evidence} | {n} |" for (source, evidence), n in sorted(counted.items())]
    return "\n".join(lines) + "\n"


def _told(row: Any, column: str) -> str:
    return str(getattr(row, column, "") or "not told")
