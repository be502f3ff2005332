"""Who is bound by each step."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from kbgen.model.procedure import Procedure
from kbgen.route.route import Place, Route

Persons = Mapping[str, int]


def persons(procedure: Procedure, route: Route) -> Mapping[str, Persons]:
    """For each place the qualifications that are bound there, with the number of persons.

    A step is the work of those whom its ``done-by`` names, else of those of its group, else of everyone under
    ``before``; a step of a shared sequence takes over what holds for the step that runs it. Live work narrows to its
    own qualification what a step does not say itself. A qualification that ``before`` does not list counts as one
    person.
    """
    everyone: dict[str, int] = {}
    for one in procedure.before.people:
        everyone[str(one.qualification)] = everyone.get(str(one.qualification), 0) + one.count
    found: dict[str, Persons] = {}
    for place, names in _named(route, tuple(everyone)):
        found[place.key] = {name: everyone.get(name, 1) for name in names}
    return found


def _named(route: Route, everyone: tuple[str, ...]) -> Iterator[tuple[Place, tuple[str, ...]]]:
    for place in route.places.values():
        over = _of_group(place, everyone)
        yield place, _of_step(place, over)
        for one in place.inside:
            yield one, _of_step(one, _of_group(one, _of_step(place, over)))


def _of_group(place: Place, over: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(map(str, place.group.done_by))) or over


def _of_step(place: Place, over: tuple[str, ...]) -> tuple[str, ...]:
    own = tuple(dict.fromkeys(map(str, place.step.done_by)))
    if own or place.step.live_work is None:
        return own or over
    return (str(place.step.live_work.qualification),)
