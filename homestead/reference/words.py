"""The sentences of the tables that screens show, in each language the app has.

English stands in the tables themselves. Another language is a file of translations,
`words/<language>.csv`, by the English text; `context` (table.column, or `part`) tells two meanings of one
text apart.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from homestead.reference.tables import FOLDER, Tables, row_name

#: languages beside English
LANGUAGES = ("de",)
#: texts of the first load, by table: shown on a round and where the action is
FIRST: Mapping[str, tuple[str, ...]] = {
    "crops": ("name",),
    "in_hand": ("name",),
    "names": ("name",),
    "findings": ("name", "description"),
    "look_fors": ("where_on_piece", "how_to_tell", "what_it_means", "photo_hint"),
    "looking_over": ("how",),
    "ladder": ("people_how", "caution"),
    "eaters": ("caution",),
    "soil_diseases": ("name", "kin_words"),
    "kitchen_safety": ("rule",),
    "feed_safety": ("limit",),
}
#: texts of the second load: how to pack, what harms, the law, dishes
SECOND: Mapping[str, tuple[str, ...]] = {
    "look_fors": ("sound_part", "bad_part"),
    "kitchen_safety": ("numbers",),
    "packs": ("how", "cautions"),
    "feed_safety": ("why_not", "hazard"),
    "feeding_law": ("jurisdiction", "animal", "rule", "kitchen_scraps"),
    "dishes": ("name",),
}
#: context of the names of parts, which have no table of their own
PART = "part"


class Translation:
    """One language's words by the English text."""

    def __init__(self, language: str, folder: Path = FOLDER) -> None:
        self._words: dict[tuple[str, str], str] = {}
        if language == "en":
            return
        with (folder / "words" / f"{language}.csv").open(encoding="utf-8", newline="") as text:
            for line in csv.DictReader(text, strict=True):
                self._words[line["context"], line["en"]] = line[language]

    def of(self, context: str, text: str) -> str:
        """The text in this language, English where it is missing; `missing` tells the tests."""
        return self._words.get((context, text)) or self._words.get(("", text)) or text

    def missing(self, tables: Tables) -> list[tuple[str, str]]:
        """Texts of the tables that have no word here."""
        return [t for t in said(tables) if not (self._words.get(t) or self._words.get(("", t[1])))]

    def idle(self, tables: Tables) -> list[tuple[str, str]]:
        """Translations whose English no table says any more."""
        used = set(said(tables))
        plain = {text for _, text in used}
        return [(c, text) for c, text in self._words if (c, text) not in used and (c or text not in plain)]


def said(tables: Tables) -> list[tuple[str, str]]:
    """Every text that screens show, with its context, each once."""
    texts = [("part", part) for part in parts(tables)]
    for columns in (FIRST, SECOND):
        for table, names in columns.items():
            texts += [
                (f"{table}.{name}", text)
                for row in tables.rows(table)
                for name in names
                if (text := str(getattr(row, name)))
            ]
    return list(dict.fromkeys(texts))


def parts(tables: Tables) -> Iterator[str]:
    yield from dict.fromkeys(rung.part for rung in tables.ladder)


def words_of(tables: Tables, columns: Mapping[str, tuple[str, ...]], words: Translation) -> dict[str, Any]:
    """Texts by table and the parts of a row's key, one inside the other: `{table: {key: {key: [texts]}}}`.

    A text that a row has not is empty; a row without any is absent. Where rows of a table of one text share a
    name, each adds its own: the first is the sentence of that name, the rest stand in the sheet of sources.
    """
    found: dict[str, Any] = {}
    for table, names in columns.items():
        for row in tables.rows(table):
            texts = [words.of(f"{table}.{name}", str(getattr(row, name))) for name in names]
            if any(texts):
                _put(found, row_name(table, row), texts, adds=len(names) == 1)
    return found


def _put(found: dict[str, Any], name: str, texts: list[str], *, adds: bool) -> None:
    table, _, key = name.partition(":")
    *outer, last = key.split("/")
    inside = found.setdefault(table, {})
    for part in outer:
        inside = inside.setdefault(part, {})
    if last not in inside:
        inside[last] = texts
    elif adds:
        inside[last] += texts
