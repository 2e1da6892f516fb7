"""The picture of a band, and the page it stands on."""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from django.conf import settings
from django.core.management import CommandError, call_command

from homestead.household.models import Household
from homestead.season.management.commands import draw_band
from homestead.season.picture import FOOT, HEIGHT, band_svg
from tests.factories import Home

GUIDE = settings.BASE / "docs" / "guide"
SVG = "{http://www.w3.org/2000/svg}"


def test_the_middle_runs_within_the_band() -> None:
    drawn = ET.fromstring(band_svg([[1000, 2000, 3000], [0, 500, 900]], "Apples & pears"))
    line = [point.split(",") for point in drawn.find(f"{SVG}polyline").attrib["points"].split()]  # type: ignore[union-attr]
    edge = [point.split(",") for point in drawn.find(f"{SVG}polygon").attrib["points"].split()]  # type: ignore[union-attr]
    for n, (_, y) in enumerate(line):
        upper, lower = float(edge[n][1]), float(edge[len(edge) - 1 - n][1])
        assert upper <= float(y) <= lower
    assert drawn.find(f"{SVG}title").text == "Apples & pears"  # type: ignore[union-attr]


def test_a_crop_of_which_nothing_is_left_can_be_drawn() -> None:
    assert ET.fromstring(band_svg([[0, 0, 0]], "None")) is not None


def test_the_page_shows_its_picture() -> None:
    page = (GUIDE / "what-the-bands-mean.md").read_text(encoding="utf-8")
    assert "(apples.svg)" in page
    assert ET.parse(GUIDE / "apples.svg").getroot().tag == f"{SVG}svg"


def test_the_picture_is_drawn_from_the_invented_household(
    home: Home, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(draw_band, "GUIDE", tmp_path)
    with pytest.raises(CommandError, match="no invented household"):
        call_command("draw_band")
    Household.objects.filter(pk=home.id).update(demo=True)
    home.lot(home.space(), "apple", pieces=200, grams=30_000, day=0)
    call_command("draw_band", "--day", "2026-12-24")
    drawn = ET.parse(tmp_path / "apples.svg")
    line = drawn.find(f"{SVG}polyline")
    assert line is not None
    assert len(line.attrib["points"].split()) == 41
    assert capsys.readouterr().out.startswith("in 0 weeks 28 kg (26 to 30)")


def test_the_pages_figures_are_those_of_its_picture() -> None:
    """Heights of the middle line, read back in kilograms, are what the page says of today and 20 weeks on."""
    drawn = ET.parse(GUIDE / "apples.svg")
    top = float(drawn.findall(f"{SVG}text")[0].text.split()[0])  # type: ignore[union-attr]
    line = drawn.find(f"{SVG}polyline").attrib["points"].split()  # type: ignore[union-attr]
    heights = [float(point.split(",")[1]) for point in line]
    floor, tall = HEIGHT - FOOT, HEIGHT - FOOT - 12
    now, later = (top * (floor - heights[n]) / tall for n in (0, draw_band.LATER))
    page = " ".join((GUIDE / "what-the-bands-mean.md").read_text(encoding="utf-8").split())
    said = re.search(r"Today about (\d+) kg are sound.*In (\d+) weeks.*most likely about (\d+)\.", page)
    assert said is not None
    assert int(said[2]) == draw_band.LATER
    assert (float(said[1]), float(said[3])) == (pytest.approx(now, abs=1), pytest.approx(later, abs=1))
