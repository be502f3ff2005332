"""Where the badges of callouts stand: near their targets, inside the picture, apart from one another.

One badge after another takes the cheapest free place around its target, or, where its surroundings are full, anywhere
in the picture. If none is left, all badges are made smaller and placed anew: every list of targets gets a layout.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

_DIRECTIONS = 16
# Distances from target to badge centre, in badge radii: the nearest that shows a leader line, then further out.
_RINGS = (2.2, 3.2, 4.5, 6.5, 9.0, 13.0, 18.0)
_CROSSING, _OVER_BADGE, _OVER_TARGET, _NEAR_TARGET = 40.0, 60.0, 80.0, 4.0
_SHRINK = 0.85


@dataclass(frozen=True)
class Point:
    """A place in the picture, in its own units."""

    x: float
    y: float

    def distance(self, other: "Point") -> float:
        """Return the straight distance."""
        return math.hypot(self.x - other.x, self.y - other.y)


@dataclass(frozen=True)
class Spot:
    """A target and the centre of its badge."""

    target: Point
    badge: Point


@dataclass(frozen=True)
class Layout:
    """One spot for each target, in the same order, and the factor by which all badges were made smaller."""

    spots: tuple[Spot, ...]
    scale: float


def place(width: float, height: float, targets: Sequence[Point], radius: float) -> Layout:
    """Return spots whose discs of `radius` times the layout's scale lie inside the picture without overlapping."""
    scale = min(1.0, min(width, height) / (4.4 * radius))
    while True:
        spots = _Placing(width, height, targets, radius * scale).spots()
        if spots is not None:
            return Layout(spots, scale)
        scale *= _SHRINK


class _Placing:
    """One attempt, with badges of one size."""

    def __init__(self, width: float, height: float, targets: Sequence[Point], radius: float) -> None:
        self._width = width
        self._height = height
        self._targets = targets
        self._radius = radius
        self._placed: list[Spot] = []

    def spots(self) -> tuple[Spot, ...] | None:
        for target in self._targets:
            free = self._free(target, self._around(target)) or self._free(target, self._anywhere())
            if not free:
                return None
            self._placed.append(min(free, key=self._cost))
        return tuple(self._placed)

    def _free(self, target: Point, badges: list[Point]) -> list[Spot]:
        return [Spot(target, badge) for badge in badges if badge != target and self._is_free(badge)]

    def _anywhere(self) -> list[Point]:
        step = 2 * self._radius
        columns, rows = int(self._width / step), int(self._height / step)
        return [Point((i + 0.5) * step, (j + 0.5) * step) for j in range(rows) for i in range(columns)]

    def _around(self, target: Point) -> list[Point]:
        reach = [ring * self._radius for ring in _RINGS]
        turns = [2 * math.pi * (step + 0.5) / _DIRECTIONS for step in range(_DIRECTIONS)]
        return [
            Point(round(target.x + far * math.cos(turn), 3), round(target.y - far * math.sin(turn), 3))
            for far in reach
            for turn in turns
        ]

    def _is_free(self, badge: Point) -> bool:
        radius = self._radius
        inside = radius <= badge.x <= self._width - radius and radius <= badge.y <= self._height - radius
        return inside and all(badge.distance(other.badge) >= 2 * radius for other in self._placed)

    def _cost(self, spot: Spot) -> float:
        radius = self._radius
        cost = spot.badge.distance(spot.target) / radius
        for target in self._targets:
            if target == spot.target:
                continue
            gap = spot.badge.distance(target) / radius
            cost += _OVER_TARGET if gap < 1.4 else _NEAR_TARGET / gap
            cost += _OVER_TARGET / 2 if _reach(target, spot) < radius / 3 else 0.0
        for other in self._placed:
            cost += _CROSSING if _cross(spot, other) else 0.0
            cost += _OVER_BADGE if min(_reach(other.badge, spot), _reach(spot.badge, other)) < radius else 0.0
        return round(cost, 6)


def _reach(point: Point, line: Spot) -> float:
    """Return the distance from a point to the leader line of a spot."""
    run, rise = line.badge.x - line.target.x, line.badge.y - line.target.y
    along = ((point.x - line.target.x) * run + (point.y - line.target.y) * rise) / (run * run + rise * rise)
    along = min(1.0, max(0.0, along))
    return point.distance(Point(line.target.x + along * run, line.target.y + along * rise))


def _cross(one: Spot, two: Spot) -> bool:
    return _side(one, two.target) != _side(one, two.badge) and _side(two, one.target) != _side(two, one.badge)


def _side(line: Spot, point: Point) -> bool:
    run, rise = line.badge.x - line.target.x, line.badge.y - line.target.y
    return run * (point.y - line.target.y) > rise * (point.x - line.target.x)
