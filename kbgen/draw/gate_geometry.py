"""Geometry for the gate: outlines as polygons, and a quick way to find boxes near a line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import cos, hypot, pi, sin

from kbgen.draw import proportions as p
from kbgen.draw.chart import Shape
from kbgen.draw.drawing import Box, Point, Polyline

_CELL = 48.0
_ARC_STEPS = 8


def outline(shape: Shape, box: Box) -> Polyline:
    """The outline of a shape as a closed polygon; arcs are cut into chords (under 0.3 px off)."""
    x, y, r, b = box.x, box.y, box.right, box.bottom
    mx, my = box.centre
    if shape is Shape.DECISION:
        return ((mx, y), (r, my), (mx, b), (x, my))
    if shape is Shape.MANUAL:
        return ((x, y), (r, y), (r - p.SLANT, b), (x + p.SLANT, b))
    if shape is Shape.INPUT:
        return ((x, y + p.SLANT), (r, y), (r, b), (x, b))
    if shape is Shape.PREPARATION:
        return ((x, my), (x + p.POINT, y), (r - p.POINT, y), (r, my), (r - p.POINT, b), (x + p.POINT, b))
    if shape is Shape.DELAY:
        return ((x, y), *_arc(r - p.BULGE, my, p.BULGE, box.height / 2, -pi / 2, pi / 2), (x, b))
    if shape is Shape.TERMINATOR:
        return _rounded(box, min(p.CORNER, box.height / 2))
    return ((x, y), (r, y), (r, b), (x, b))


def _rounded(box: Box, c: float) -> Polyline:
    left, right, top, bottom = box.x + c, box.right - c, box.y + c, box.bottom - c
    return (
        *_arc(left, top, c, c, pi, 1.5 * pi),
        *_arc(right, top, c, c, 1.5 * pi, 2 * pi),
        *_arc(right, bottom, c, c, 0, pi / 2),
        *_arc(left, bottom, c, c, pi / 2, pi),
    )


def _arc(x: float, y: float, rx: float, ry: float, start: float, end: float) -> Iterator[Point]:
    for step in range(_ARC_STEPS + 1):
        angle = start + (end - start) * step / _ARC_STEPS
        yield (x + rx * cos(angle), y + ry * sin(angle))


def distance(point: Point, polygon: Polyline) -> float:
    """Distance in pixels from a point to the nearest side of a closed polygon."""
    return min(_to_side(point, a, b) for a, b in zip(polygon, (*polygon[1:], polygon[0])))


def _to_side(point: Point, a: Point, b: Point) -> float:
    dx, dy = b[0] - a[0], b[1] - a[1]
    length = dx * dx + dy * dy
    along = ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / length if length else 0.0
    along = min(1.0, max(0.0, along))
    return hypot(point[0] - a[0] - along * dx, point[1] - a[1] - along * dy)


def overlap(a: Box, b: Box, clear: float) -> bool:
    """Whether two boxes come nearer than `clear` pixels."""
    return (
        a.x < b.right + clear
        and b.x < a.right + clear
        and a.y < b.bottom + clear
        and b.y < a.bottom + clear
    )


def crosses(a: Point, b: Point, box: Box, clear: float) -> bool:
    """Whether a level or upright segment comes nearer to a box than `clear` pixels."""
    return (
        min(a[0], b[0]) < box.right + clear
        and max(a[0], b[0]) > box.x - clear
        and min(a[1], b[1]) < box.bottom + clear
        and max(a[1], b[1]) > box.y - clear
    )


class Strips:
    """Boxes filed by the upright strips and level strips of the page that they touch."""

    def __init__(self, boxes: Sequence[Box]) -> None:
        self._upright: dict[int, list[int]] = {}
        self._level: dict[int, list[int]] = {}
        for index, box in enumerate(boxes):
            _file(self._upright, box.x, box.right, index)
            _file(self._level, box.y, box.bottom, index)

    def near(self, a: Point, b: Point) -> list[int]:
        """Indices of the boxes in the strip a segment runs in; some may be far from it."""
        if a[0] == b[0]:
            return self._upright.get(int(a[0] // _CELL), [])
        return self._level.get(int(a[1] // _CELL), [])

    def rows(self) -> Iterator[list[int]]:
        """The boxes of each level strip."""
        return iter(self._level.values())


def _file(strips: dict[int, list[int]], low: float, high: float, index: int) -> None:
    for strip in range(int((low - 4) // _CELL), int((high + 4) // _CELL) + 1):
        strips.setdefault(strip, []).append(index)
