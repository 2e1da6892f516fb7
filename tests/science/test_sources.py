"""Every formula names its source, and the page says what the code says."""

from __future__ import annotations

from django.conf import settings

from homestead.reference import tables
from homestead.season.sources import page, source_of, unsourced


def test_every_public_formula_names_its_source() -> None:
    assert " ".join(unsourced()) == ""


def test_the_page_is_what_code_and_tables_say() -> None:
    written = (settings.BASE / "docs" / "sources.md").read_text(encoding="utf-8")
    assert written == page(tables()), "run: python manage.py write_sources"


def test_a_docstring_without_a_source_is_found_out() -> None:
    assert source_of("What it gives. [d]") is None
    assert source_of("What. [d]\n\nSource: Newton's law,\n    by hand.\n\nMore.") == "Newton's law, by hand."
