"""A path through a procedure, told as a list of steps that a reader can follow on the page."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from kbgen.route.route import Place, Way
from kbgen.route.unfold import Walk

Path = Sequence[tuple[str, Way | None]]


def told(walk: Walk, path: Path, matters: Callable[[Place], bool]) -> str:
    """Tell a path: where it starts and ends, the answers that it takes, and the steps in between that matter.

    For example ``start -> 3 cover “Yes” -> ... -> 7 bus-bars``; dots stand for steps that are left out.
    """
    words = ["start"]
    for place, way in ((walk.places[key], way) for key, way in path):
        chosen = _chosen(walk, place, way)
        if way is None or chosen or matters(place):
            words.append(f"{place.number} {place.step.id}{chosen}")
        elif words[-1] != "...":
            words.append("...")
    return " -> ".join(words)


def _chosen(walk: Walk, place: Place, way: Way | None) -> str:
    """The answer that is given, where there is a choice."""
    if way is None or not way.label or len(walk.edges.get(place.key, ())) < 2:
        return ""
    return f" “{way.label}”"
