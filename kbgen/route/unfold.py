"""Route -> the walk with the shared sequences folded out: one graph of every step that is done."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from kbgen.route.route import Place, Route, Way


@dataclass(frozen=True)
class Walk:
    """Every place that is stood at, and the ways between them; a run of a sequence is replaced by its steps."""

    start: str
    places: Mapping[str, Place]
    edges: Mapping[str, tuple[tuple[str, Way], ...]]


def unfold(route: Route) -> Walk:
    """Replace each run of a shared sequence by the steps of the sequence."""
    entries = {place.key: _entry(place) for place in route.places.values()}
    edges: dict[str, list[tuple[str, Way]]] = {}
    for source, target, way in _edges(route):
        edges.setdefault(source, []).append((entries.get(target, target), way))
    places = {place.key: place for place in route.all_places if not place.inside}
    start = entries.get(route.start, route.start)
    return Walk(start, places, {key: tuple(leaving) for key, leaving in edges.items()})


def _entry(place: Place) -> str:
    return place.inside[0].key if place.inside else place.key


def _edges(route: Route) -> Iterator[tuple[str, str, Way]]:
    folded = {place.key: place for place in route.runs() if place.inside}
    for way in route.ways:
        if way.source not in folded:
            yield way.source, way.target, way
    for place in folded.values():
        onward = {way.answer: way for way in route.ways_from(place.key)}
        for way in place.ways_inside:
            if not way.target.startswith("="):
                yield way.source, way.target, way
            elif way.target[1:] in onward:
                yield way.source, onward[way.target[1:]].target, way
