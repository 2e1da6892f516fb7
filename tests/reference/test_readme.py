"""The README of the tables tells each table, with its rows and how well they are founded."""

from __future__ import annotations

import re
from collections import Counter

from homestead.reference import tables
from homestead.reference.tables import FOLDER, ROW_TYPES

ROW = re.compile(r"^\| (?P<table>[a-z_]+) \|.*?(?P<counts>(\| \d+ ){5})\|$", re.MULTILINE)


def test_the_readme_counts_the_rows_of_every_table() -> None:
    told = {
        found["table"]: [int(number) for number in re.findall(r"\d+", found["counts"])]
        for found in ROW.finditer((FOLDER / "README.md").read_text(encoding="utf-8"))
    }
    counted = {}
    for table in ROW_TYPES:
        rows = tables().rows(table)
        evidence = Counter(row.evidence for row in rows)
        kinds = ("seen", "derived", "common practice", "memory")
        counted[table] = [len(rows), *(evidence[kind] for kind in kinds)]
    assert told == counted
