"""A procedure as it is walked: places with their state of work, and the ways between them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple

from kbgen.model.steps import Group, Run, Step
from kbgen.model.words import EnergyState, Person
from kbgen.place import Span
from kbgen.route.digraph import immediate_dominators


@dataclass(frozen=True)
class Place:
    """A step where it stands in the work. ``inside`` holds the steps of a shared sequence that is run here.

    ``energy`` maps each energy source to the state it must have; names that a sequence takes are bound already.
    """

    key: str
    number: str
    step: Step
    group: Group
    person: Person | None
    energy: Mapping[str, EnergyState]
    hazards: tuple[str, ...]
    binding: Mapping[str, str] = field(default_factory=dict)
    inside: tuple[Place, ...] = ()
    ways_inside: tuple[Way, ...] = ()

    @property
    def source(self) -> str | None:
        """The energy source on which an energy step works."""
        name = getattr(self.step, "source", None)
        return None if name is None else self.bound(name)

    def bound(self, name: str) -> str:
        """The energy source that a name stands for here."""
        return self.binding.get(name, str(name))


class Way(NamedTuple):
    """A way from one place to another, with the answer that leads there.

    ``limit`` is how often a way back may be taken; ``after`` marks the way that is left when that is used up.
    """

    source: str
    target: str
    label: str
    answer: str
    at: Span
    limit: int | None = None
    after: bool = False


@dataclass(frozen=True)
class Route:
    """The places of a procedure in the order of its page, and all ways between them."""

    start: str
    places: Mapping[str, Place]
    ways: tuple[Way, ...]
    dead_ends: tuple[str, ...] = ()

    @cached_property
    def graph(self) -> Mapping[str, Sequence[str]]:
        """Successors of each place, without repeats, in the order of the answers."""
        graph: dict[str, dict[str, None]] = {key: {} for key in self.places}
        for way in self.ways:
            graph[way.source][way.target] = None
        return {key: tuple(targets) for key, targets in graph.items()}

    def ways_from(self, key: str) -> tuple[Way, ...]:
        """The ways that leave a place."""
        return self._leaving.get(key, ())

    @cached_property
    def _leaving(self) -> Mapping[str, tuple[Way, ...]]:
        leaving: dict[str, list[Way]] = {}
        for way in self.ways:
            leaving.setdefault(way.source, []).append(way)
        return {key: tuple(ways) for key, ways in leaving.items()}

    @cached_property
    def all_places(self) -> tuple[Place, ...]:
        """Every place, those inside shared sequences too, in the order of the page."""
        return tuple(one for place in self.places.values() for one in (place, *place.inside))

    @cached_property
    def doors(self) -> Mapping[str, str]:
        """For each place the last answer that every path to it gives, in words."""
        graph: dict[str, list[str]] = {key: [] for key in self.places}
        labels: dict[str, str] = {}
        for number, way in enumerate(self.ways):
            middle = f"\0{number}"
            graph[way.source].append(middle)
            graph[middle] = [way.target]
            if way.label and len(self.ways_from(way.source)) > 1:
                labels[middle] = f"“{way.label}” at step {self.places[way.source].number}"
        dominators = immediate_dominators(graph, self.start) if self.start in graph else {}
        return {key: _last_label(key, dominators, labels) for key in self.places}

    def runs(self) -> tuple[Place, ...]:
        """The places at which a shared sequence is run."""
        return tuple(place for place in self.places.values() if isinstance(place.step, Run))


def _last_label(key: str, dominators: Mapping[str, str], labels: Mapping[str, str]) -> str:
    node: str | None = key
    while node is not None:
        if node in labels:
            return labels[node]
        node = dominators.get(node)
    return ""
