"""Whether work that must be done before a stage of an alarm is done in time on the longest way to it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from tests.proof.danger import Danger, Kind
from tests.proof.stations import Route, Station
from tests.proof.tables import Data, Tables
from tests.proof.walking import Counters


class Visit(NamedTuple):
    """A station, with how often each limited way was taken."""

    station: str
    taken: tuple[int, ...]


def too_late(route: Route, tables: Tables) -> Iterator[Danger]:
    """Report the steps whose alarm stage can begin before they are done.

    Where the time runs again with each start, the work may be spread, and only the step itself must fit. A route
    with an endless loop has no longest way.
    """
    windowed = {key: window for key, one in route.stations.items() if (window := _window(one))}
    if not windowed:
        return
    visits = _visits(route, set(windowed))
    for key, window in windowed.items():
        begins = tables.stages.get((window["display"], str(window["code"]), window["stage"]))
        lasts = route.stations[key].lasts
        latest = lasts if window.get("repeats") else _longest(route, visits, key)
        if begins is not None and latest is not None and latest > begins:
            text = f"done after {latest:g} s, the stage begins after {begins:g} s"
            yield Danger(Kind.TOO_LATE, key, window["stage"], text, ("start", "...", key))


def _window(station: Station) -> Data | None:
    """The window of a step, of its group, or of the run of the sequence in which it stands."""
    if station.act in ("outcome", "end"):
        return None
    window = station.step.get("before-stage") or station.group.get("before-stage")
    return window or (_window(station.run) if station.run else None)


def _visits(route: Route, wanted: set[str]) -> Mapping[Visit, tuple[Visit, ...]]:
    """All visits from which a wanted station can still be reached, each before those that it leads to."""
    counters = Counters(route)
    nearing = _leading_to(route, wanted)
    start = Visit(route.start, counters.none_taken)
    onward: dict[Visit, tuple[Visit, ...]] = {}
    finished: list[Visit] = []
    stack = [(start, False)]
    while stack:
        visit, is_done = stack.pop()
        if is_done:
            finished.append(visit)
        elif visit not in onward:
            station = route.stations[visit.station]
            taken = (counters.take(station.key, way, visit.taken) for way in station.ways)
            onward[visit] = tuple(Visit(target, counts) for target, counts in taken if target in nearing)
            stack.append((visit, True))
            stack.extend((one, False) for one in onward[visit])
    return {visit: onward[visit] for visit in reversed(finished)}


def _leading_to(route: Route, wanted: set[str]) -> set[str]:
    near = set(wanted)
    while True:
        more = {
            key
            for key, station in route.stations.items()
            if key not in near and any(way.target in near or way.after in near for way in station.ways)
        }
        if not more:
            return near
        near |= more


def _longest(route: Route, visits: Mapping[Visit, tuple[Visit, ...]], key: str) -> float | None:
    """The longest time until a station is done; None where no way leads there."""
    first = next(iter(visits))
    starts = {first: 0.0}
    latest: float | None = None
    for visit, onward in visits.items():
        if visit not in starts:
            continue
        end = starts[visit] + route.stations[visit.station].lasts
        if visit.station == key:
            latest = end if latest is None else max(latest, end)
        for one in onward:
            starts[one] = max(starts.get(one, 0.0), end)
    return latest
