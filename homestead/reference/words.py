"""The sentences of the tables that screens show, in each language the app has.

English stands in the tables themselves. Another language is a file of translations, `words/<language>.csv`, by the
English text; `context` (table.column) tells two meanings of one text apart. Screens hold a text by its number, so
that a phone loads one language only.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

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
    "kitchen_safety": ("rule",),
    "feed_safety": ("limit",),
}
#: texts of the second load: how to pack, limits of feed, the law, dishes
SECOND: Mapping[str, tuple[str, ...]] = {
    "look_fors": ("sound_part", "bad_part"),
    "kitchen_safety": ("numbers",),
    "packs": ("how", "cautions"),
    "feed_safety": ("why_not", "hazard"),
    "feeding_law": ("jurisdiction", "animal", "rule", "kitchen_scraps"),
    "dishes": ("name",),
}


@dataclass
class Texts:
    """Texts by number, and for each row of the tables the numbers of its texts (-1: it has none)."""

    texts: list[tuple[str, str]] = field(default_factory=list)
    rows: dict[str, list[list[int]]] = field(default_factory=dict)
    parts: dict[str, int] = field(default_factory=dict)
    _numbers: dict[tuple[str, str], int] = field(default_factory=dict)

    def number(self, context: str, text: str) -> int:
        """The number of a text; the same words in the same place of the table have one."""
        if not text:
            return -1
        if (context, text) not in self._numbers:
            self._numbers[context, text] = len(self.texts)
            self.texts.append((context, text))
        return self._numbers[context, text]


def texts_of(tables: Tables, columns: Mapping[str, tuple[str, ...]], *, with_parts: bool = False) -> Texts:
    """All texts of these columns, numbered in the order of the tables."""
    texts = Texts()
    for table, names in columns.items():
        for row in tables.rows(table):
            if any(said := [str(getattr(row, name)) for name in names]):
                numbers = [texts.number(f"{table}.{n}", s) for n, s in zip(names, said, strict=True)]
                texts.rows.setdefault(row_name(table, row), []).append(numbers)
    if with_parts:
        texts.parts = {part: texts.number("part", part) for part in _parts(tables)}
    return texts


def _parts(tables: Tables) -> Iterator[str]:
    yield from dict.fromkeys(rung.part for rung in tables.ladder)


class Translation:
    """One language's words by the English text. `of` raises KeyError where one is missing."""

    def __init__(self, language: str, folder: Path = FOLDER) -> None:
        self.language = language
        self._words: dict[tuple[str, str], str] = {}
        with (folder / "words" / f"{language}.csv").open(encoding="utf-8", newline="") as text:
            for line in csv.DictReader(text, strict=True):
                self._words[line["context"], line["en"]] = line[language]

    def of(self, context: str, text: str) -> str:
        return self._words.get((context, text)) or self._words.get(("", text)) or text

    def missing(self, texts: Texts) -> list[tuple[str, str]]:
        """Texts that have no word here."""
        return [t for t in texts.texts if not (self._words.get(t) or self._words.get(("", t[1])))]

    def idle(self, *all_texts: Texts) -> list[tuple[str, str]]:
        """Lines whose English no table says any more."""
        said = {text for texts in all_texts for text in texts.texts}
        plain = {text for _, text in said}
        return [(c, text) for c, text in self._words if (c, text) not in said and (c or text not in plain)]
