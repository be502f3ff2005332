"""Which tools and parts the steps use, and whether every repair needs them or only a branch."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from kbgen.model.steps import Finish
from kbgen.model.words import Result
from kbgen.route.digraph import reachable
from kbgen.route.route import Place, Route


@dataclass(frozen=True)
class Use:
    """A tool, part or consumable and the steps that use it.

    ``always`` tells that no repair can be finished without it; otherwise ``branches`` says when it is needed.
    """

    name: str
    steps: tuple[Place, ...]
    always: bool
    branches: tuple[str, ...]


def uses(route: Route, names: Callable[[Place], Iterable[str]]) -> tuple[Use, ...]:
    """List what the steps use, in the order of the steps; ``names`` gives what one step uses."""
    places: dict[str, list[Place]] = {}
    for place in route.all_places:
        for name in names(place):
            places.setdefault(str(name), []).append(place)
    if not places:
        return ()
    return tuple(_use(route, name, using) for name, using in places.items())


def _use(route: Route, name: str, using: Sequence[Place]) -> Use:
    tops = dict.fromkeys(place.key.split(".")[0] for place in using)
    always = _unavoidable(route, set(tops))
    branches = () if always else tuple(dict.fromkeys(route.doors.get(top, "") for top in tops))
    return Use(name, tuple(using), always, tuple(branch for branch in branches if branch))


def _unavoidable(route: Route, using: set[str]) -> bool:
    """Tell whether the procedure cannot be brought to a repair without one of these steps."""
    fixed = {
        key
        for key, place in route.places.items()
        if isinstance(place.step, Finish) and place.step.result is Result.FIXED
    }
    if route.start in using:
        return True
    left = {key: [one for one in targets if one not in using] for key, targets in route.graph.items()}
    reached = reachable(left, [route.start])
    return not fixed & reached
