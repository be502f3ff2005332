"""Whether a technician always gets on: no dead ends, no endless loops, nothing out of reach."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from tests.proof.danger import Danger, Kind
from tests.proof.stations import Route, Station, Way

Graph = Mapping[str, set[str]]


def stuck(route: Route) -> Iterator[Danger]:
    """Report where a technician is left alone."""
    graph = {key: set(_targets(station)) for key, station in route.stations.items()}
    reached = _reachable(graph, [route.start])
    for key, station in route.stations.items():
        if key not in reached:
            yield Danger(Kind.NEVER_REACHED, key, key, "no path leads here")
        yield from _missing_answer(station)
    yield from _without_outcome(route, graph, reached)
    yield from _endless(route)


def _targets(station: Station) -> Iterator[str]:
    for way in station.ways:
        yield way.target
        if way.limit is not None:
            yield way.after or "?"


def _missing_answer(station: Station) -> Iterator[Danger]:
    wanted = {"ask": "cannot-tell", "read": "not-available"}.get(station.act)
    if wanted and wanted not in station.step:
        yield Danger(Kind.NO_WAY_OUT, station.key, station.key, f"no way on for {wanted}")


def _without_outcome(route: Route, graph: Graph, reached: set[str]) -> Iterator[Danger]:
    backward: dict[str, set[str]] = {}
    for key, targets in graph.items():
        for target in targets:
            backward.setdefault(target, set()).add(key)
    ends = [key for key, station in route.stations.items() if station.act == "outcome"]
    free = _reachable(backward, ends)
    for key in route.stations:
        leads_nowhere = any(target not in route.stations for target in graph[key])
        if key in reached and (leads_nowhere or key not in free):
            yield Danger(Kind.STUCK, key, key, "no outcome can be reached from here")


def _endless(route: Route) -> Iterator[Danger]:
    """Cut the stations off that lead out of all loops; what is left goes round for ever."""
    free = {key: {_when_used_up(way) for way in station.ways} for key, station in route.stations.items()}
    left = dict(free)
    while True:
        out = {key for key, targets in left.items() if not targets & left.keys()}
        if not out:
            break
        left = {key: targets for key, targets in left.items() if key not in out}
    for key in left:
        if key in _reachable(free, free[key]):
            yield Danger(Kind.ENDLESS, key, key, "this loop has no limit")


def _when_used_up(way: Way) -> str:
    """Where a way leads for ever: one with a limit leads on when that is used up."""
    return way.target if way.limit is None else way.after or "?"


def _reachable(graph: Mapping[str, set[str]], starts: set[str] | list[str]) -> set[str]:
    seen, todo = set(starts), list(starts)
    while todo:
        for target in graph.get(todo.pop(), ()):
            if target not in seen:
                seen.add(target)
                todo.append(target)
    return seen
