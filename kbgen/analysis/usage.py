"""Which tools and parts the steps use, and whether every repair needs them or only a branch."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from kbgen.model.steps import Finish
from kbgen.model.words import Result
from kbgen.route.digraph import immediate_dominators, reachable
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
    doors = _doors(route)
    return tuple(_use(route, name, using, doors) for name, using in places.items())


def _use(route: Route, name: str, using: Sequence[Place], doors: dict[str, str]) -> Use:
    tops = dict.fromkeys(place.key.split(".")[0] for place in using)
    always = _unavoidable(route, set(tops))
    branches = () if always else tuple(dict.fromkeys(doors.get(top, "") for top in tops))
    return Use(name, tuple(using), always, tuple(branch for branch in branches if branch))


def _unavoidable(route: Route, using: set[str]) -> bool:
    """Tell whether the procedure cannot be brought to a repair without one of these steps."""
    fixed = {
        key for key, place in route.places.items() if isinstance(place.step, Finish) and place.step.result is Result.FIXED
    }
    if route.start in using:
        return True
    left = {key: [one for one in targets if one not in using] for key, targets in route.graph.items()}
    return not fixed & reachable(left, [route.start])


def _doors(route: Route) -> dict[str, str]:
    """Name for each place the last answer that every path to it gives, in words."""
    graph: dict[str, list[str]] = {key: [] for key in route.places}
    labels: dict[str, str] = {}
    for number, way in enumerate(route.ways):
        middle = f"\0{number}"
        graph[way.source].append(middle)
        graph[middle] = [way.target]
        if way.label and len(route.ways_from(way.source)) > 1:
            labels[middle] = f"“{way.label}” at step {route.places[way.source].number}"
    dominators = immediate_dominators(graph, route.start) if route.start in graph else {}
    return {key: _last_label(key, dominators, labels) for key in route.places}


def _last_label(key: str, dominators: dict[str, str], labels: dict[str, str]) -> str:
    node: str | None = key
    while node is not None:
        if node in labels:
            return labels[node]
        node = dominators.get(node)
    return ""
