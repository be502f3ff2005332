"""Polylines made whole: pieces put end to end, tiny steps taken out, ends moved to outlines."""

from __future__ import annotations

from collections.abc import Iterable

from kbgen.draw.drawing import Box, NodeBox, Point, Polyline
from kbgen.draw.outline import bottom_at, top_at


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


def end_at(line: Polyline, x: float, y: float) -> Polyline:
    """The line with its last, upright segment moved to end at a point close by."""
    (_, before), head = line[-2], line[:-2]
    return (*head, (x, before), (x, y))


def start_at(line: Polyline, x: float, y: float) -> Polyline:
    """The line with its first, upright segment moved to start at a point close by."""
    return end_at(line[::-1], x, y)[::-1]


def to_outline(line: Polyline, node: NodeBox) -> Polyline:
    """The line with its last, upright segment drawn on until it meets the node's outline."""
    x, y = line[-1]
    edge = top_at if y <= node.box.centre[1] else bottom_at
    return (*line[:-1], (x, edge(node.shape, node.box, x)))


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
