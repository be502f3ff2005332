"""Numbered callouts over a picture: badges that point at parts, drawn in the units of the picture.

The overlay is hidden from screen readers: the page prints the same callouts as a numbered list.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from kbgen.pictures.badge_places import Point, Spot, place

# All sizes as they appear when the picture is shown 700 px wide.
_SHOWN_WIDTH = 700.0
_RADIUS = 18.0
_FONT = 22.0
_LINE, _LINE_HALO = 2.5, 6.5
_DOT, _HALO = 5.0, 3.0
# Widest digit of common sans-serif fonts, in parts of the font size, rounded up.
_DIGIT = 0.62
# Half the height of a digit, in parts of the font size.
_HALF_DIGIT = 0.36


@dataclass(frozen=True)
class Callout:
    """A number that points at a part; x and y are fractions of the picture's width and height, from its top left."""

    number: int
    x: float
    y: float
    label: str

    def __post_init__(self) -> None:
        if self.number < 1:
            raise ValueError(f"callout {self.number}: the number must be 1 or more")
        if not (0 <= self.x <= 1 and 0 <= self.y <= 1):
            raise ValueError(f"callout {self.number}: x and y must lie between 0 and 1")


def overlay(width: float, height: float, callouts: Sequence[Callout]) -> str:
    """Return an inline SVG of the picture's own size, to be laid over its <img>; colours come from callouts.css.

    Badges stay inside the picture and never overlap; they shrink if a picture is too small for its callouts.
    """
    tall = _SHOWN_WIDTH * height / width
    targets = [Point(callout.x * _SHOWN_WIDTH, callout.y * tall) for callout in callouts]
    layout = place(_SHOWN_WIDTH, tall, targets, _RADIUS + _HALO)
    pen = _Pen(width / _SHOWN_WIDTH, layout.scale)
    lines = "".join(pen.pointer(spot) for spot in layout.spots)
    badges = "".join(pen.badge(callout.number, at.badge) for callout, at in zip(callouts, layout.spots, strict=True))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="kb-callouts" viewBox="0 0 {width:.6g} {height:.6g}"'
        f' aria-hidden="true" focusable="false">{lines}{badges}</svg>'
    )


@dataclass(frozen=True)
class _Pen:
    """Writes shapes in units of the picture: `unit` of them to a shown pixel, badges and lines shrunk by `scale`."""

    unit: float
    scale: float

    def pointer(self, spot: Spot) -> str:
        start, end = spot.badge, spot.target
        ends = f'x1="{self._at(start.x)}" y1="{self._at(start.y)}" x2="{self._at(end.x)}" y2="{self._at(end.y)}"'
        dot = f'cx="{self._at(end.x)}" cy="{self._at(end.y)}" r="{self._size(_DOT)}"'
        return (
            f'<line class="kb-callout-halo" {ends} stroke-width="{self._size(_LINE_HALO)}"/>'
            f'<circle class="kb-callout-dot" {dot} stroke-width="{self._size(_HALO)}"/>'
            f'<line class="kb-callout-line" {ends} stroke-width="{self._size(_LINE)}"/>'
        )

    def badge(self, number: int, centre: Point) -> str:
        font = min(_FONT, 1.7 * _RADIUS / (_DIGIT * len(str(number))))
        baseline = centre.y + _HALF_DIGIT * font * self.scale
        return (
            f'<circle class="kb-callout-badge" cx="{self._at(centre.x)}" cy="{self._at(centre.y)}"'
            f' r="{self._size(_RADIUS + _HALO / 2)}" stroke-width="{self._size(_HALO)}"/>'
            f'<text class="kb-callout-number" x="{self._at(centre.x)}" y="{self._at(baseline)}"'
            f' font-size="{self._size(font)}" text-anchor="middle">{number}</text>'
        )

    def _at(self, shown: float) -> str:
        return f"{shown * self.unit:.6g}"

    def _size(self, shown: float) -> str:
        return f"{shown * self.scale * self.unit:.4g}"
