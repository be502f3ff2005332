"""The point where a line joins another, moved back to where the two first run together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from kbgen.draw.drawing import EdgeLine, Point, Polyline


def met_early(edges: Sequence[EdgeLine]) -> tuple[EdgeLine, ...]:
    """The edges, each that joins another cut off where it meets it, not somewhere after."""
    trunks: dict[Point, Polyline] = {}
    for edge in edges:
        if not edge.shared:
            trunks[edge.legs[-1][-1]] = edge.legs[-1]
    return tuple(_cut(edge, trunks[edge.shared[-1]]) if edge.shared else edge for edge in edges)


def _cut(edge: EdgeLine, trunk: Polyline) -> EdgeLine:
    leg, (x, y) = edge.legs[-1], edge.shared[0]
    start = _run_start(trunk, x, y)
    before_x, before_y = leg[-2]
    if start is None or before_x != x:
        return edge
    down = before_y < y
    meet = max(start, before_y) if down else min(start, before_y)
    if (meet >= y) if down else (meet <= y):
        return edge
    whole = leg[:-1] if meet == before_y and len(leg) > 2 else (*leg[:-1], (x, meet))
    return replace(edge, legs=(*edge.legs[:-1], whole), shared=((x, meet), *edge.shared[1:]))


def _run_start(trunk: Polyline, x: float, y: float) -> float | None:
    """Where the upright run of a line that passes a point begins."""
    for a, b in pairwise(trunk):
        if a[0] == b[0] == x and min(a[1], b[1]) <= y <= max(a[1], b[1]):
            return a[1]
    return None
