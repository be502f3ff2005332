"""Polylines made whole: pieces put end to end, tiny steps taken out, ends moved to outlines."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from kbgen.draw.drawing import Box, NodeBox, Point, Polyline
from kbgen.draw.outline import bottom_at, left_at, right_at, top_at

SMALL_STEP = 2.5


def squared(line: Polyline, start: Point | None, end: Point | None) -> Polyline:
    """The line as upright runs on whole pixels and level steps, without steps of a pixel or two.

    A `start` or `end` given replaces the line's own, which must be a few pixels from it.
    """
    xs, ys = _runs(line)
    if start:
        xs[0] = start[0]
    if end and len(xs) == 1 and start and start[0] != end[0]:
        xs.append(end[0])
        ys.append((line[0][1] + line[-1][1]) / 2)
    elif end:
        xs[-1] = end[0]
    points = [(xs[0], start[1] if start else line[0][1])]
    for y, before, after in zip(ys, xs, xs[1:], strict=False):
        if before != after:
            points += ((before, y), (after, y))
    return (*points, (xs[-1], end[1] if end else line[-1][1]))


def _runs(line: Polyline) -> tuple[list[float], list[float]]:
    """Where the upright runs of a line stand, and the heights of the steps between them."""
    xs = [float(round(line[0][0]))]
    ys: list[float] = []
    for (_, y0), (x1, y1) in pairwise(line):
        if abs(x1 - xs[-1]) > SMALL_STEP:
            xs.append(float(round(x1)))
            ys.append((y0 + y1) / 2)
    return xs, ys


def joined(parts: Iterable[Polyline]) -> Polyline:
    """Parts one after another as one line, without points that lie between their neighbours."""
    points: list[Point] = []
    for part in parts:
        for point in part:
            if points and points[-1] == point:
                continue
            if len(points) > 1 and _in_line(points[-2], points[-1], point):
                points[-1] = point
            else:
                points.append(point)
    return tuple(points)


def _in_line(a: Point, b: Point, c: Point) -> bool:
    return a[0] == b[0] == c[0] or a[1] == b[1] == c[1]


def to_outline(line: Polyline, node: NodeBox) -> Polyline:
    """The line with its last segment drawn on until it meets the node's outline."""
    x, y = line[-1]
    shape, box = node.shape, node.box
    if line[-2][1] == y:
        side = left_at if x <= box.centre[0] else right_at
        return (*line[:-1], (side(shape, box, y), y))
    face = top_at if y <= box.centre[1] else bottom_at
    return (*line[:-1], (x, face(shape, box, x)))


def from_outline(line: Polyline, node: NodeBox) -> Polyline:
    """As `to_outline`, for the line's start."""
    return to_outline(line[::-1], node)[::-1]


def to_label(line: Polyline, box: Box) -> Polyline:
    """The line with its last, upright segment ended at the label."""
    x, _ = line[-1]
    return (*line[:-1], (x, box.y if line[-2][1] < box.y else box.bottom))


def from_label(line: Polyline, box: Box) -> Polyline:
    """As `to_label`, for the line's start."""
    return to_label(line[::-1], box)[::-1]
