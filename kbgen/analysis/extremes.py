"""The shortest and the longest time from the start to each place, over all paths."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from typing import NamedTuple

from kbgen.analysis.spent import Spent
from kbgen.analysis.unwind import Situation, Unwound
from kbgen.route.route import Way


class Extremes(NamedTuple):
    """The shortest and the longest time from the start until a place is left."""

    shortest: Spent
    longest: Spent


def extremes(unwound: Unwound) -> Mapping[str, Extremes]:
    """The extremes of each place that can be reached, over all its situations."""
    shortest, longest = _ends(unwound, min), _ends(unwound, max)
    found: dict[str, Extremes] = {}
    for here in unwound.ways:
        known = found.get(here.place, Extremes(shortest[here], longest[here]))
        found[here.place] = Extremes(min(known.shortest, shortest[here]), max(known.longest, longest[here]))
    return found


def longest_path(unwound: Unwound, places: Collection[str]) -> tuple[Spent, list[tuple[str, Way | None]]]:
    """The longest time from the start until one of the places is left, with a path that takes it.

    The path names each place with the way that leaves it there, and none behind the last. Of paths that are equally
    long the first in the order of the situations is taken. The path is empty if no place can be reached.
    """
    ends = _ends(unwound, max)
    reached = [here for here in unwound.ways if here.place in places]
    if not reached:
        return Spent(), []
    last = max(reached, key=lambda here: ends[here])
    return ends[last], _path_to(last, unwound, ends)


def _path_to(last: Situation, unwound: Unwound, ends: Mapping[Situation, Spent]) -> list[tuple[str, Way | None]]:
    came_from: dict[Situation, tuple[Situation, Way]] = {}
    for here, leaving in unwound.ways.items():
        for to, way in leaving:
            if to not in came_from and ends[here].plus(unwound.spent[to]) == ends[to]:
                came_from[to] = (here, way)
    path: list[tuple[str, Way | None]] = [(last.place, None)]
    while last in came_from:
        last, way = came_from[last]
        path.append((last.place, way))
    return path[::-1]


def _ends(unwound: Unwound, better: Callable[[Spent, Spent], Spent]) -> Mapping[Situation, Spent]:
    """When each situation is left by the better of all paths to it."""
    begins = {unwound.start: Spent()}
    ends: dict[Situation, Spent] = {}
    for here, leaving in unwound.ways.items():
        end = ends[here] = begins[here].plus(unwound.spent[here])
        for to, _ in leaving:
            begins[to] = better(begins.get(to, end), end)
    return ends
