"""One picture of a band, for the page that explains what bands mean."""

from __future__ import annotations

from collections.abc import Sequence
from xml.sax.saxutils import escape

WIDTH, HEIGHT, LEFT, FOOT = 640, 260, 56, 32


def band_svg(weeks: Sequence[Sequence[int]], title: str) -> str:
    """A crop's weeks ([P10, P50, P90] in grams, today first) as an SVG drawing with a title."""
    top = max(high for _, _, high in weeks) or 1
    low, middle, high = (_points([week[n] for week in weeks], top) for n in range(3))
    band = " ".join([*high, *reversed(low)])
    return "\n".join(
        [
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" role="img">',
            f"<title>{escape(title)}</title>",
            f'<polygon points="{band}" fill="#c9b68a" fill-opacity="0.55"/>',
            f'<polyline points="{" ".join(middle)}" fill="none" stroke="#4a3f2a" stroke-width="2"/>',
            *_marks(len(weeks), top),
            "</svg>\n",
        ]
    )


def _points(grams: Sequence[int], top: float) -> list[str]:
    step = (WIDTH - LEFT - 8) / max(len(grams) - 1, 1)
    tall = HEIGHT - FOOT - 12
    return [f"{LEFT + n * step:.1f},{HEIGHT - FOOT - tall * one / top:.1f}" for n, one in enumerate(grams)]


def _marks(weeks: int, top: float) -> list[str]:
    style = 'font-family="sans-serif" font-size="13" fill="#4a3f2a"'
    return [
        f'<text x="{LEFT - 8}" y="24" text-anchor="end" {style}>{top / 1000:.0f} kg</text>',
        f'<text x="{LEFT - 8}" y="{HEIGHT - FOOT}" text-anchor="end" {style}>0</text>',
        f'<text x="{LEFT}" y="{HEIGHT - 10}" {style}>today</text>',
        f'<text x="{WIDTH - 8}" y="{HEIGHT - 10}" text-anchor="end" {style}>in {weeks - 1} weeks</text>',
    ]
