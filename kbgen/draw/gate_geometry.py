"""Geometry for the gate: outlines as polygons, and a quick way to find boxes near a line."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from itertools import islice
from math import cos, hypot, pi, sin

from kbgen.draw import proportions as p
from kbgen.draw.chart import Shape
from kbgen.draw.drawing import Box, Point, Polyline

_CELL = 64.0
_REACH = 4.0
_ARC_STEPS = 8  # in a quarter of a circle


def outline(shape: Shape, box: Box) -> Polyline:
    """The outline of a shape as a closed polygon; arcs are cut into chords (under 0.4 px off)."""
    x, y, r, b = box.x, box.y, box.right, box.bottom
    mx, my = box.centre
    if shape is Shape.DECISION:
        return ((mx, y), (r, my), (mx, b), (x, my))
    if shape is Shape.MANUAL:
        return ((x, y), (r, y), (r - p.SLANT, b), (x + p.SLANT, b))
    if shape is Shape.INPUT:
        return ((x, y + p.SLANT), (r, y), (r, b), (x, b))
    if shape is Shape.PREPARATION:
        return (
            (x, my),
            (x + p.POINT, y),
            (r - p.POINT, y),
            (r, my),
            (r - p.POINT, b),
            (x + p.POINT, b),
        )
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
    steps = round(_ARC_STEPS * (end - start) / (pi / 2))
    for step in range(steps + 1):
        angle = start + (end - start) * step / steps
        yield (x + rx * cos(angle), y + ry * sin(angle))


def on_outline(point: Point, polygon: Polyline, reach: float) -> bool:
    """Whether a point lies within `reach` pixels of a side of a closed polygon."""
    x, y = point
    before = polygon[-1]
    for after in polygon:
        if (
            min(before[0], after[0]) - reach <= x <= max(before[0], after[0]) + reach
            and min(before[1], after[1]) - reach <= y <= max(before[1], after[1]) + reach
            and _to_side(point, before, after) <= reach
        ):
            return True
        before = after
    return False


def _to_side(point: Point, a: Point, b: Point) -> float:
    """Distance from a point to the line through two others, or to `a` if they are one."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    length = hypot(dx, dy)
    if length == 0:
        return hypot(point[0] - a[0], point[1] - a[1])
    return abs((point[0] - a[0]) * dy - (point[1] - a[1]) * dx) / length


class Strips:
    """Boxes filed by the upright strips of the page that they touch, from the top down."""

    def __init__(self, boxes: Sequence[Box]) -> None:
        self._tallest = max((box.height for box in boxes), default=0.0)
        self._strips: dict[int, list[tuple[float, float, float, float, int]]] = {}
        order = sorted(range(len(boxes)), key=lambda index: (boxes[index].y, index))
        for index in order:
            box = boxes[index]
            entry = (box.y, box.y + box.height, box.x, box.x + box.width, index)
            for strip in range(_strip(box.x - _REACH), _strip(entry[3] + _REACH) + 1):
                self._strips.setdefault(strip, []).append(entry)

    def near(self, a: Point, b: Point, clear: float) -> list[int]:
        """The boxes to which a level or upright segment comes nearer than `clear` pixels,
        `clear` being at most the reach of 4 px."""
        left, right = (a[0], b[0]) if a[0] < b[0] else (b[0], a[0])
        top, bottom = (a[1], b[1]) if a[1] < b[1] else (b[1], a[1])
        left, right, top, bottom = left - clear, right + clear, top - clear, bottom + clear
        found: list[int] = []
        for strip in range(_strip(left), _strip(right) + 1):
            entries = self._strips.get(strip, [])
            first = bisect_left(entries, (top - self._tallest,))
            for box_top, box_bottom, box_left, box_right, index in islice(entries, first, None):
                if box_top >= bottom:
                    break
                if top < box_bottom and left < box_right and box_left < right:
                    found.append(index)
        return found


def _strip(x: float) -> int:
    return int(x // _CELL)
