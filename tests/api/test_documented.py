"""docs/sync.md tells of every code there is."""

from __future__ import annotations

import ast
import re
from pathlib import Path

from api.problems import CODES

PAGE = Path("docs/sync.md").read_text()


def codes_in(section: str) -> dict[str, str]:
    """Code -> second column, of the table under that heading."""
    part = PAGE.split(section)[1].split("\n#")[0]
    rows = re.findall(r"^\| (`.*?) \| (.*?) \|", part, re.M)
    return {code: column for codes, column in rows for code in re.findall(r"`(\w+)`", codes)}


def test_every_problem_stands_on_the_page_with_its_status() -> None:
    told = codes_in("## 8. Problems")
    assert told.keys() == CODES.keys()
    for code, (status, title) in CODES.items():
        assert str(status) in told[code].split(", "), code
        assert title


def refused_in(folder: str) -> set[str]:
    """Codes that `Refused(...)` is raised with there."""
    found = set()
    for path in Path(folder).rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text())):
            called = getattr(getattr(node, "func", None), "id", None)
            if isinstance(node, ast.Call) and called == "Refused" and isinstance(node.args[0], ast.Constant):
                found.add(str(node.args[0].value))
    return found


def test_every_refusal_of_the_ledger_stands_on_the_page() -> None:
    told = codes_in("### Codes of refused lines")
    assert refused_in("homestead/ledger") <= told.keys()
    assert told.keys() - refused_in("homestead/ledger") == {"id", "zone"}
    assert {column.split()[0] for column in told.values()} == {"yes", "no", "as"}
