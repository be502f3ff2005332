"""Lanes outside the chart's body for long lines, which the engine does not get to see.

A line that passes many rows winds its way between the boxes if the engine routes it, and costs
it most of its time. Here it leaves its label level, runs along the edge of the rows it passes,
and comes back level above (for a loop: below) its target. Lines to one target share a lane.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from kbgen.draw.drawing import Point, Polyline
from kbgen.draw.engine import Item, Placed, Wire
from kbgen.draw.wiring import Wiring

_LANE = 13.0
_PORT_GAP = 16.0
_PORT_INSET = 14.0
_OFF_ROW = 1.0
_STEP = 0.01
_CROSSING = 150.0
"""A line crossed counts as much as so many pixels of way."""


@dataclass(frozen=True)
class _Stop:
    """Where a long line starts: its edge, the place on its label, the height it turns at."""

    edge: int
    at: Point
    turn: float


class _Body:
    """How far the chart reaches to either side, row by row, lanes included as they are added."""

    def __init__(self, items: Sequence[Item], placed: Placed) -> None:
        rows = 1 + max(item.row for item in items)
        self.tops = [float("inf")] * rows
        self.bottoms = [float("-inf")] * rows
        self.left = [float("inf")] * rows
        self.right = [float("-inf")] * rows
        self.uprights: list[list[tuple[float, float, float]]] = [[] for _ in range(rows)]
        for item, (x, y) in zip(items, placed.centres, strict=True):
            self.tops[item.row] = min(self.tops[item.row], y - item.height / 2)
            self.bottoms[item.row] = max(self.bottoms[item.row], y + item.height / 2)
            self._widen(item.row, item.row, x - item.width / 2, x + item.width / 2)
        for wire in placed.wires:
            for (x0, y0), (x1, y1) in pairwise(wire):
                self.take(min(x0, x1), max(x0, x1), min(y0, y1), max(y0, y1))

    def rows(self, top: float, bottom: float) -> tuple[int, int]:
        """First and last row that a stretch of height touches, or the gap below which it does."""
        first = max(0, bisect_right(self.tops, top) - 1)
        return first, max(first, bisect_right(self.tops, bottom) - 1)

    def take(self, left: float, right: float, top: float, bottom: float) -> None:
        """Count a level or upright line as part of the body."""
        first, last = self.rows(top, bottom)
        self._widen(first, last, left, right)
        if left == right:
            for row in range(first, last + 1):
                self.uprights[row].append((left, top, bottom))

    def crossed(self, y: float, a: float, b: float) -> int:
        """How many upright lines a level one at `y` between two places would cross."""
        low, high = min(a, b), max(a, b)
        uprights = self.uprights[self.rows(y, y)[0]]
        return sum(low < x < high and top < y < bottom for x, top, bottom in uprights)

    def lanes(self, top: float, bottom: float) -> tuple[float, float]:
        """The nearest free lane on the left and on the right of a stretch of height."""
        first, last = self.rows(top, bottom)
        left, right = min(self.left[first : last + 1]), max(self.right[first : last + 1])
        return round(left) - _LANE, round(right) + _LANE

    def _widen(self, first: int, last: int, left: float, right: float) -> None:
        for row in range(first, last + 1):
            self.left[row] = min(self.left[row], left)
            self.right[row] = max(self.right[row], right)


class _Router:
    """Adds the wires of long lines to those the engine has placed."""

    def __init__(self, wiring: Wiring, placed: Placed) -> None:
        self.items, self.centres = wiring.items, placed.centres
        self.wires, self.lines = list(wiring.wires), list(placed.wires)
        self.ways = list(wiring.ways)
        self.body = _Body(wiring.items, placed)
        self.turns = 0
        self.ports: dict[tuple[int, bool], list[float]] = {}
        for wire, line in zip(wiring.wires, placed.wires, strict=True):
            self._note_port(wire.source, line[0])
            self._note_port(wire.target, line[-1])

    def _note_port(self, item: int, at: Point) -> None:
        self.ports.setdefault((item, at[1] > self.centres[item][1]), []).append(at[0])

    def add(self, target: int, edges: Sequence[int]) -> None:
        """Route the given edges, all long, all to one target and in one direction."""
        label = self.ways[edges[0]].label
        down = self.items[target].row > self.items[label].row
        stops = sorted((self._stop(edge, down) for edge in edges), key=lambda stop: stop.turn)
        if not down:
            stops.reverse()
        arrive = self._near(target, not down)
        lane = self._lane(stops, arrive, self.centres[target][0])
        end = self._end(target, lane, arrive, down)
        self._draw(target, stops, lane, end)
        self.body.take(lane, lane, min(stops[0].turn, arrive), max(stops[0].turn, arrive))
        for stop in stops:
            self.body.take(stop.at[0], stop.at[0], *sorted((stop.at[1], stop.turn)))

    def _stop(self, edge: int, down: bool) -> _Stop:
        label = self.ways[edge].label
        half = self.items[label].height / 2
        x, y = self.centres[label]
        return _Stop(edge, (x, y + half if down else y - half), self._near(label, down))

    def _near(self, item: int, below: bool) -> float:
        """A height of its own just below or just above an item's row."""
        self.turns += 1
        off = _OFF_ROW + _STEP * self.turns
        row = self.items[item].row
        return self.body.bottoms[row] + off if below else self.body.tops[row] - off

    def _lane(self, stops: Sequence[_Stop], arrive: float, target: float) -> float:
        """The free lane to which the level lines cross fewer others, or else are shorter."""
        turns = [stop.turn for stop in stops]
        levels = [(arrive, target), *((stop.turn, stop.at[0]) for stop in stops)]
        lanes = self.body.lanes(min(arrive, *turns), max(arrive, *turns))
        cost = [
            sum(_CROSSING * self.body.crossed(y, x, lane) + abs(x - lane) for y, x in levels)
            for lane in lanes
        ]
        return lanes[0] if cost[0] <= cost[1] else lanes[1]

    def _end(self, target: int, lane: float, arrive: float, down: bool) -> Polyline:
        """From the lane to a port of the target, outside the ports in use on that side."""
        x, y = self.centres[target]
        item = self.items[target]
        port = self._port(x, item.width, -1 if lane < x else 1, self.ports.get((target, not down)))
        face = y - item.height / 2 if down else y + item.height / 2
        self._note_port(target, (port, face))
        return ((lane, arrive), (port, arrive), (port, face))

    def _port(self, x: float, width: float, side: int, used: Sequence[float] | None) -> float:
        """A place on the top or bottom of a node, beside the lines that end there already."""
        if not used:
            return x
        limit = width / 2 - _PORT_INSET
        outside = max(side * (u - x) for u in used) + _PORT_GAP
        inside = min(side * (u - x) for u in used) - _PORT_GAP
        offset = outside if outside <= limit or inside < -limit else inside
        return float(round(x + side * offset))

    def _draw(self, target: int, stops: Sequence[_Stop], lane: float, end: Polyline) -> None:
        """One wire from each label to the lane, and the lane in pieces from stop to stop."""
        trunk: list[int] = []
        for place, stop in enumerate(stops):
            label = self.ways[stop.edge].label
            later = place + 1 < len(stops)
            goal = self.ways[stops[place + 1].edge].label if later else target
            rest = ((lane, stops[place + 1].turn),) if later else end
            start = (stop.at, (stop.at[0], stop.turn), (lane, stop.turn))
            if place == 0:
                self._extend(stop.edge, self._wire(label, goal, (*start, *rest)))
                continue
            self._extend(stop.edge, self._wire(label, label, start))
            trunk.append(self._wire(label, goal, ((lane, stop.turn), *rest)))
        for place, stop in enumerate(stops):
            shared, draws = tuple(trunk[max(0, place - 1) :]), place == 0 and bool(trunk)
            self.ways[stop.edge] = replace(self.ways[stop.edge], shared=shared, draws_shared=draws)

    def _wire(self, source: int, target: int, line: Polyline) -> int:
        """Add a wire. One that ends at a lane counts as leading to a label there."""
        self.wires.append(Wire(source, target, line[-1][1] < line[0][1]))
        self.lines.append(line)
        return len(self.wires) - 1

    def _extend(self, edge: int, wire: int) -> None:
        way = self.ways[edge]
        self.ways[edge] = replace(way, own=(*way.own, wire))


def with_lanes(wiring: Wiring, placed: Placed) -> tuple[Wiring, Placed]:
    """The wiring and its places with the long lines added; the shortest lie innermost."""
    if not wiring.long:
        return wiring, placed
    router = _Router(wiring, placed)
    groups: dict[tuple[int, bool], list[int]] = {}
    reach: dict[tuple[int, bool], int] = {}
    for edge, target in wiring.long:
        rows = wiring.items[target].row - wiring.items[wiring.ways[edge].label].row
        groups.setdefault((target, rows > 0), []).append(edge)
        reach[target, rows > 0] = max(abs(rows), reach.get((target, rows > 0), 0))
    for key in sorted(groups, key=lambda key: (reach[key], key)):
        router.add(key[0], groups[key])
    lanes = replace(wiring, wires=tuple(router.wires), ways=tuple(router.ways), long=())
    return lanes, Placed(placed.centres, tuple(router.lines))
