"""The power state that can be found at each step: for every energy source, along all paths that lead there.

A forward dataflow over the walk. The states of sources that feed one another are followed together, and each set of
states is exactly what some path leaves, except that a way back is followed as often as it changes anything, whatever
its limit says.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass

from kbgen.analysis.circuit import Circuit, State, circuits
from kbgen.analysis.hold import Hold, state_of
from kbgen.model.tables import EnergySource
from kbgen.model.words import EnergyState
from kbgen.route.flow import forward, trail
from kbgen.route.route import Way
from kbgen.route.unfold import Walk

States = frozenset[EnergyState]
Path = list[tuple[str, Way | None]]


@dataclass(frozen=True)
class Followed:
    """A circuit with the states in which each step can be entered."""

    walk: Walk
    circuit: Circuit
    states: Mapping[str, frozenset[State]]

    def holds(self, key: str, source: str) -> frozenset[Hold]:
        """The ways in which one source can be held when a step is entered."""
        number = self.circuit.index[source]
        return frozenset(state[number] for state in self.states.get(key, ()))

    def path_to(self, key: str, is_sought: Callable[[State], bool]) -> Path:
        """Return a shortest path on which a step is entered in a state that is sought."""
        along = _along(self.walk, self.circuit)
        return trail(
            self.walk.start,
            self.circuit.start,
            self.walk.edges,
            along,
            lambda at, state: at == key and is_sought(state),
        )


    def states_along(self, path: Path) -> Iterator[tuple[str, State]]:
        """Yield each step of a path with the state in which it is entered."""
        state = self.circuit.start
        for key, way in path:
            yield key, state
            if way is not None:
                state = self.circuit.after(self.walk.places[key], way, state)


def follow(walk: Walk, sources: Iterable[str], known: Mapping[str, EnergySource]) -> tuple[Followed, ...]:
    """Follow the named sources, and those that feed them, along all paths."""
    return tuple(_followed(walk, circuit) for circuit in circuits(sources, known))


def energy_states(followed: Iterable[Followed]) -> Mapping[str, Mapping[str, States]]:
    """Return for each source and each step the states in which the source can be when the step is entered."""
    return {
        name: {key: _states_of(one.holds(key, name), one.circuit.points[number]) for key in one.states}
        for one in followed
        for name, number in one.circuit.index.items()
    }


def _states_of(holds: Iterable[Hold], points: frozenset[str]) -> States:
    return frozenset(state_of(hold, points) for hold in holds)


def _followed(walk: Walk, circuit: Circuit) -> Followed:
    if walk.start not in walk.places:
        return Followed(walk, circuit, {})
    first = frozenset({circuit.start})
    return Followed(walk, circuit, forward(walk.start, first, walk.edges, _along(walk, circuit)))


def _along(walk: Walk, circuit: Circuit) -> Callable[[str, Way, frozenset[State]], frozenset[State]]:
    acting = {key: place for key, place in walk.places.items() if circuit.concerns(place)}

    def along(key: str, way: Way, states: frozenset[State]) -> frozenset[State]:
        place = acting.get(key)
        if place is None:
            return states
        return frozenset(circuit.after(place, way, state) for state in states)

    return along
