"""What a step needs of the energy sources, with what is said at the run of a sequence taken down to its steps."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from kbgen.model.steps import LiveWork
from kbgen.model.words import EnergyState
from kbgen.route.route import Place, Route


@dataclass(frozen=True)
class Needs:
    """The states that sources must have at a step, those that cannot reach the person, and the case for live work."""

    states: Mapping[str, EnergyState]
    out_of_reach: frozenset[str]
    live_work: LiveWork | None


def needs_at(route: Route, place: Place) -> Needs:
    """Gather what a step needs; for a source that its sequence does not take, the run of the sequence speaks."""
    outer = outer_place(route, place)
    if outer is place:
        return Needs(place.energy, _out_of_reach(place), place.step.live_work)
    return Needs(
        states={**outer.energy, **place.energy},
        out_of_reach=_out_of_reach(outer) | _out_of_reach(place),
        live_work=place.step.live_work or outer.step.live_work,
    )


def outer_place(route: Route, place: Place) -> Place:
    """The run of the sequence that a step belongs to, or the step itself."""
    return route.places.get(place.key.split(".")[0], place)


def _out_of_reach(place: Place) -> frozenset[str]:
    return frozenset(
        place.bound(name) for reasons in (place.group.out_of_reach, place.step.out_of_reach) for name in reasons or ()
    )
