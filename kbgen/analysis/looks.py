"""Which steps only look: from outside, at the machine as it stands, before anything was done to it."""

from __future__ import annotations

from kbgen.model.steps import Ask, Read
from kbgen.model.words import EnergyState, Person
from kbgen.route.digraph import reachable
from kbgen.route.route import Place, Route

_AS_IT_STANDS = frozenset({EnergyState.ANY, EnergyState.LIVE})


def looks_as_it_stands(route: Route) -> frozenset[str]:
    """The places at which one only looks, and to which the procedure comes by looking alone.

    A step that comes after anything else is none of them, however harmless it is itself: what its procedure does
    first, a warning to others or an isolation, may be what makes it harmless.
    """
    looking = {key for key, place in route.places.items() if _only_looks(place)}
    if route.start not in looking:
        return frozenset()
    onward = {key: [one for one in route.graph[key] if one in looking] for key in looking}
    return frozenset(reachable(onward, [route.start]))


def _only_looks(place: Place) -> bool:
    step = place.step
    return (
        isinstance(step, (Ask, Read))
        and place.person is Person.OUTSIDE
        and _AS_IT_STANDS.issuperset(place.energy.values())
        and step.live_work is None
        and not step.set_up
    )
