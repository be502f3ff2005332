"""Procedure and route -> the figures by which its fault is told from others."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.analysis.digest import CauseFigures, FaultFigures, SymptomLook
from kbgen.analysis.looks import looks_as_it_stands
from kbgen.model.procedure import Cause, Procedure
from kbgen.model.steps import Ask
from kbgen.model.words import Basis, Raised
from kbgen.prose import plain
from kbgen.route.route import Place, Route


def figures_of(procedure: Procedure, route: Route) -> FaultFigures:
    """Gather how often the fault comes up, the weights of its causes and how its symptoms are seen."""
    symptoms = {str(one.id): number for number, one in enumerate(procedure.symptoms)}
    as_it_stands = looks_as_it_stands(route)
    looked_for = [(place, number) for place in route.places.values() for number in _seen_at(place, symptoms)]
    looks = tuple(_look(place, number) for place, number in looked_for if place.key in as_it_stands)
    occurs = procedure.occurs
    return FaultFigures(
        times=occurs.times if occurs else None,
        times_counted=bool(occurs and occurs.basis is Basis.RECORDS),
        always=tuple(one.raised is Raised.ALWAYS for one in procedure.alarms),
        symptom_ids=tuple(str(one.id) for one in procedure.symptoms),
        causes=tuple(_cause(one, symptoms) for one in procedure.causes),
        looks=looks,
        not_as_it_stands=tuple(sorted({number for _, number in looked_for} - {look.symptom for look in looks})),
    )


def _seen_at(place: Place, symptoms: dict[str, int]) -> Iterator[int]:
    if isinstance(place.step, Ask):
        names = dict.fromkeys(str(one.symptom) for one in place.step.answers if one.symptom)
        yield from (symptoms[name] for name in names if name in symptoms)


def _look(place: Place, symptom: int) -> SymptomLook:
    step = place.step
    assert isinstance(step, Ask)
    return SymptomLook(
        symptom=symptom,
        step=place.key,
        number=place.number,
        question=plain(step.ask),
        seconds=step.takes.seconds if step.takes else None,
        hazards=place.hazards,
        done_by=tuple(map(str, step.done_by or place.group.done_by)),
    )


def _cause(cause: Cause, symptoms: dict[str, int]) -> CauseFigures:
    counted = max(cause.cases or 1, 1) if cause.basis is Basis.RECORDS else 0
    if cause.shows is None:
        return CauseFigures(cause.weight, counted, None)
    shows = ((symptoms[str(name)], chance) for name, chance in cause.shows.items() if str(name) in symptoms)
    return CauseFigures(cause.weight, counted, tuple(sorted(shows)))
