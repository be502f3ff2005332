"""A procedure as a technician walks it: every step a station, shared sequences laid out where they are run."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

from tests.proof.tables import Data, Tables, listed
from tests.proof.units import seconds

ACTS = (
    "do", "ask", "read", "wait", "shut-down", "isolate", "lock", "release", "prove", "unlock", "energise", "change",
    "undo", "run", "outcome", "end",
)  # fmt: skip
ENERGY_ACTS = frozenset({"shut-down", "isolate", "lock", "release", "prove", "unlock", "energise"})
PROVED, NOT_PROVED = "proved", "not-proved"


@dataclass(frozen=True)
class Way:
    """A way on: the answer that opens it, where it leads, how often it may be taken, and where it leads then."""

    answer: str
    target: str
    limit: int | None = None
    after: str | None = None


@dataclass(frozen=True)
class Station:
    """A step in its place; names of energy sources are bound. ``run`` is the run of the sequence that it belongs to."""

    key: str
    act: str
    step: Data
    group: Data
    ways: tuple[Way, ...]
    binding: Mapping[str, str] = field(default_factory=dict)
    run: Station | None = None

    @cached_property
    def person(self) -> str:
        """Where the person is."""
        return str(self.step.get("person") or self.group.get("person") or "")

    @cached_property
    def needs(self) -> Mapping[str, str]:
        """The state that each energy source must have; of those that a sequence does not take, its run tells."""
        own = self._bound({**(self.group.get("energy") or {}), **(self.step.get("energy") or {})})
        return {**self.run.needs, **own} if self.run else own

    @cached_property
    def out_of_reach(self) -> Mapping[str, str]:
        """Energy sources that cannot harm here, with a reason."""
        own = self._bound({**(self.group.get("out-of-reach") or {}), **(self.step.get("out-of-reach") or {})})
        return {**self.run.out_of_reach, **own} if self.run else own

    @cached_property
    def source(self) -> str:
        """The energy source on which the step works; empty where it works on none."""
        name = self.step.get("discharges" if self.act == "wait" else "source") if self._works_on_energy else None
        return self.binding.get(name, name) if name else ""

    @cached_property
    def lasts(self) -> float:
        """How long it takes, in seconds."""
        return seconds(self.step["wait"] if self.act == "wait" else self.step.get("takes", ""))

    @cached_property
    def is_sound_live_work(self) -> bool:
        """Tell whether work is done live for a reason, by someone qualified, who knows a hazard of it."""
        live = self.live_work
        has_hazard = bool(self.step.get("hazards") or self.group.get("hazards"))
        return live is not None and bool(live.get("reason") and live.get("qualification")) and has_hazard

    @property
    def live_work(self) -> Data | None:
        """What is said of work on live parts, here or at the run."""
        return self.step.get("live-work") or (self.run.live_work if self.run else None)

    @property
    def _works_on_energy(self) -> bool:
        return self.act in ENERGY_ACTS or self.act == "wait"

    def _bound(self, named: Mapping[str, str]) -> Mapping[str, str]:
        return {self.binding.get(name, name): value for name, value in named.items()}


@dataclass(frozen=True)
class Route:
    """All stations, and the energy sources that the work touches."""

    start: str
    stations: Mapping[str, Station]
    sources: tuple[str, ...]


def lay_out(procedure: Data, tables: Tables) -> Route:
    """Lay a procedure out; ways to steps that do not exist keep a name that no station has."""
    stations: dict[str, Station] = {}
    for station in _stations(procedure["steps"], "", {}, {}, tables):
        stations[station.key] = station
    named = dict.fromkeys([*listed(procedure["before"]["energy"])])
    for station in stations.values():
        named.update(dict.fromkeys([*station.needs, *([station.source] if station.source else [])]))
    return Route(next(iter(stations), ""), stations, tuple(name for name in named if name in tables.sources))


def _stations(
    groups: list[Data], prefix: str, binding: Mapping[str, str], endings: Mapping[str, str], tables: Tables
) -> Iterator[Station]:
    placed = [(group, step) for group in groups for step in group["steps"]]
    for (group, step), following in zip(placed, [*(one["id"] for _, one in placed[1:]), "?"], strict=True):
        key, act = prefix + step["id"], next(act for act in ACTS if act in step)
        ways = tuple(_placed(way, prefix, following) for way in _ways(step, act))
        if act == "end":
            ways = (Way("", endings.get(step["end"], "?")),)
        elif act == "run":
            outcomes = {way.answer: way.target for way in ways}
            run = Station(key, act, step, group, (), binding)
            inner = tuple(replace(one, run=run) for one in _sequence(step, key, outcomes, tables))
            run = replace(run, ways=(Way("", inner[0].key if inner else "?"),))
            yield run
            yield from inner
            continue
        yield Station(key, act, step, group, ways, binding)


def _sequence(run: Data, key: str, outcomes: Mapping[str, str], tables: Tables) -> Iterator[Station]:
    sequence = tables.sequences.get(run["run"])
    if sequence is not None:
        yield from _stations(sequence["steps"], f"{key}.", run.get("with") or {}, outcomes, tables)


def _placed(way: Way, prefix: str, following: str) -> Way:
    def target(name: str) -> str:
        return prefix + (following if name == "next" else name)

    return Way(way.answer, target(way.target), way.limit, None if way.after is None else target(way.after))


def _ways(step: Data, act: str) -> Iterator[Way]:
    if act in ("ask", "read"):
        for exit in step["answers" if act == "ask" else "bands"]:
            yield _exit(exit["id"], exit)
        other = "cannot-tell" if act == "ask" else "not-available"
        if other in step:
            yield _exit(other, step[other])
    elif act == "run":
        for ending, go in step["outcomes"].items():
            yield Way(ending, go)
    elif act == "prove":
        yield _exit(PROVED, step)
        yield Way(NOT_PROVED, step["not-proved"])
    elif act not in ("outcome", "end"):
        yield _exit("", step)


def _exit(answer: str, exit: Mapping[str, Any]) -> Way:
    return Way(answer, exit.get("go", "next"), exit.get("at-most"), exit.get("after-that"))
