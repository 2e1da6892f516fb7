"""The picture of a band, and the page it stands on."""

from __future__ import annotations

import xml.etree.ElementTree as ET

from django.conf import settings

from homestead.season.picture import band_svg

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
