"""The power state that can be found at each step: for every energy source, along all paths that lead there."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from kbgen.model.steps import Energise, Isolate, Lock, Prove, Release, ShutDown, Unlock
from kbgen.model.words import EnergyState
from kbgen.route.flow import forward
from kbgen.route.route import Place, Way
from kbgen.route.unfold import Walk

States = frozenset[EnergyState]

_LEAVES: dict[type, EnergyState] = {
    ShutDown: EnergyState.SHUT_DOWN,
    Isolate: EnergyState.ISOLATED,
    Lock: EnergyState.LOCKED,
    Release: EnergyState.RELEASED,
    Prove: EnergyState.VERIFIED,
    Unlock: EnergyState.ISOLATED,
    Energise: EnergyState.LIVE,
}


def energy_states(walk: Walk, sources: Iterable[str]) -> Mapping[str, Mapping[str, States]]:
    """Return for each source and each place the states in which the source can be when the place is entered.

    A source is taken to be live at the start. A proof that fails leaves the source live, whatever was done before.
    """
    return {source: _states_of(walk, source) for source in sources}


def _states_of(walk: Walk, source: str) -> Mapping[str, States]:
    def along(key: str, way: Way, states: States) -> States:
        return _after(walk.places[key], way, source, states)

    if walk.start not in walk.places:
        return {}
    return forward(walk.start, frozenset({EnergyState.LIVE}), walk.edges, along)


def _after(place: Place, way: Way, source: str, states: States) -> States:
    state = _LEAVES.get(type(place.step))
    if state is None or place.source != source:
        return states
    if isinstance(place.step, Prove) and way.answer == "not-proved":
        return frozenset({EnergyState.LIVE})
    return frozenset({state})
