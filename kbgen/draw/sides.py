"""Lines that leave or enter a node at its side where that saves them a corner.

The engine lets lines leave below and enter above only. A line that then turns outward past the
node's side may as well leave a decision at its corner, or enter a node at mid height.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Iterator, Sequence
from itertools import islice, pairwise

from kbgen.draw.drawing import Box, Polyline

_LEAVE_ROOM = 10.0
_ENTER_ROOM = 22.0
_CLEAR = 10.0
_CLEAR_BOX = 5.0


class Sides:
    """The sides of nodes still free, and what a line to one of them must keep clear of."""

    def __init__(self, boxes: Sequence[Box], wires: Sequence[Polyline]) -> None:
        self._boxes = sorted((box.x, box.right, box.y, box.bottom) for box in boxes)
        self._widest = max((box.width for box in boxes), default=0.0)
        self._uprights = sorted(
            (a[0], min(a[1], b[1]), max(a[1], b[1]))
            for wire in wires
            for a, b in pairwise(wire)
            if a[0] == b[0]
        )
        self._levels: list[tuple[float, float, float]] = []
        self._ports: dict[tuple[float, float], tuple[float, float]] = {}
        self._taken: set[tuple[float, float]] = set()

    def note_port(self, x: float, y: float, box: Box) -> None:
        """Tell of a line that ends at the top or bottom of a box; do this for all lines first."""
        low, high = self._ports.get((box.x, y), (x, x))
        self._ports[box.x, y] = (min(x, low), max(x, high))

    def entering(self, wire: Polyline, box: Box) -> Polyline:
        """The wire led to the box's side at mid height if that is free, else as it was."""
        return self._moved(wire, box, _ENTER_ROOM)

    def leaving(self, wire: Polyline, box: Box) -> Polyline:
        """As `entering`, for the wire's start."""
        return self._moved(wire[::-1], box, _LEAVE_ROOM)[::-1]

    def _moved(self, wire: Polyline, box: Box, room: float) -> Polyline:
        if len(wire) < 4:
            return wire
        (x, far), (_, near) = wire[-4], wire[-3]
        side = box.right if x > box.x else box.x
        y = box.centre[1]
        outermost = self._ports[box.x, wire[-1][1]][x > box.x] == wire[-1][0]
        if box.x - room < x < box.right + room or (side, y) in self._taken or not outermost:
            return wire
        if (far < near) != (near < y):
            return wire
        if not (self._level_free(y, side, x) and self._upright_free(x, near, y)):
            return wire
        self._taken.add((side, y))
        self._levels.append((y, min(side, x), max(side, x)))
        insort(self._uprights, (x, min(near, y), max(near, y)))
        return (*wire[:-3], (x, y), (side, y))

    def _level_free(self, y: float, a: float, b: float) -> bool:
        """Nothing across the way from the side `a` to the upright at `b`."""
        low, high = (a + 1, b + _CLEAR) if a < b else (b - _CLEAR, a - 1)
        for x, top, bottom in self._from(low):
            if x > high:
                break
            if top < y < bottom:
                return False
        if any(y == level and low <= right and left <= high for level, left, right in self._levels):
            return False
        return self._boxes_clear(low, high, y - _CLEAR_BOX, y + _CLEAR_BOX)

    def _upright_free(self, x: float, near: float, y: float) -> bool:
        """Nothing in the way of the upright at `x` drawn on from `near` to `y`."""
        low, high = min(near, y), max(near, y)
        for other, top, bottom in self._from(x - _CLEAR):
            if other > x + _CLEAR:
                break
            if top < high and low < bottom:
                return False
        if any(low < level < high and left < x < right for level, left, right in self._levels):
            return False
        return self._boxes_clear(x - _CLEAR_BOX, x + _CLEAR_BOX, low, high)

    def _from(self, x: float) -> Iterator[tuple[float, float, float]]:
        """The uprights at `x` and to the right of it, in order."""
        return islice(self._uprights, bisect_left(self._uprights, (x,)), None)

    def _boxes_clear(self, low: float, high: float, top: float, bottom: float) -> bool:
        first = bisect_left(self._boxes, (low - self._widest,))
        for left, right, box_top, box_bottom in islice(self._boxes, first, None):
            if left >= high:
                break
            if right > low and box_top < bottom and box_bottom > top:
                return False
        return True
