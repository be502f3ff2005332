"""Walk every path of a route: each station in each state of the watched thing, with the loops counted."""

from __future__ import annotations

from collections import deque
from collections.abc import Hashable, Iterator, Mapping
from typing import NamedTuple, Protocol

from tests.proof.danger import Danger, Kind
from tests.proof.stations import Route, Station, Way

State = Hashable


class Bad(NamedTuple):
    """What is dangerous at a station in a state."""

    kind: Kind
    subject: str
    text: str


class Watch(Protocol):
    """One thing of the world that is watched along the way."""

    @property
    def first(self) -> State:
        """Its state before the first step."""

    def dangers(self, station: Station, state: State) -> Iterator[Bad]:
        """What is dangerous when a station is entered in a state."""

    def after(self, station: Station, answer: str, state: State) -> State:
        """The state after the station, with the answer that leads on."""


class Stand(NamedTuple):
    """Where the technician stands: the station, how often each limited way was taken, and the state."""

    station: str
    taken: tuple[int, ...]
    state: State


class Counters:
    """How often each limited way was taken; one number for each of them."""

    def __init__(self, route: Route) -> None:
        limited = ((key, way) for key, one in route.stations.items() for way in one.ways if way.limit is not None)
        self._place = {(key, way.answer): number for number, (key, way) in enumerate(limited)}

    @property
    def none_taken(self) -> tuple[int, ...]:
        """The counts at the start."""
        return (0,) * len(self._place)

    def take(self, key: str, way: Way, taken: tuple[int, ...]) -> tuple[str | None, tuple[int, ...]]:
        """Take a way: where it leads now, and the counts after it; None where it is used up and leads nowhere."""
        if way.limit is None:
            return way.target, taken
        place = self._place[key, way.answer]
        if taken[place] >= way.limit:
            return way.after, taken
        return way.target, (*taken[:place], taken[place] + 1, *taken[place + 1 :])


class Walker:
    """Walks a route with one watch, breadth first, so that each danger comes with a shortest way to it."""

    def __init__(self, route: Route, watch: Watch) -> None:
        self._route = route
        self._watch = watch
        self._counters = Counters(route)
        self._known: dict[tuple[str, State], tuple[tuple[Bad, ...], tuple[State, ...]]] = {}

    def dangers(self) -> Iterator[Danger]:
        """Yield each danger once."""
        stations = self._route.stations
        start = Stand(self._route.start, self._counters.none_taken, self._watch.first)
        came: dict[Stand, tuple[Stand, str] | None] = {start: None}
        found: set[tuple[Kind, str, str]] = set()
        todo = deque([start] if start.station in stations else [])
        while todo:
            stand = todo.popleft()
            station = stations[stand.station]
            bads, states = self._at(station, stand.state)
            for bad in bads:
                danger = Danger(bad.kind, station.key, bad.subject, bad.text, _path(stand, came))
                if danger.identity not in found:
                    found.add(danger.identity)
                    yield danger
            for way, state in zip(station.ways, states, strict=True):
                target, taken = self._counters.take(station.key, way, stand.taken)
                if target is None or target not in stations:
                    continue
                there = Stand(target, taken, state)
                if there not in came:
                    came[there] = (stand, way.answer)
                    todo.append(there)

    def _at(self, station: Station, state: State) -> tuple[tuple[Bad, ...], tuple[State, ...]]:
        known = self._known.get((station.key, state))
        if known is None:
            after = self._watch.after
            known = (
                tuple(self._watch.dangers(station, state)),
                tuple(after(station, way.answer, state) for way in station.ways),
            )
            self._known[station.key, state] = known
        return known


def _path(stand: Stand, came: Mapping[Stand, tuple[Stand, str] | None]) -> tuple[str, ...]:
    steps = [stand.station]
    while (before := came[stand]) is not None:
        stand, answer = before
        steps.append(f"{stand.station} [{answer}]" if answer else stand.station)
    return ("start", *reversed(steps))
