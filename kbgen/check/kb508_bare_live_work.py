"""KB508: work on live parts without a hazard, or by someone who is not called for."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.steps import LiveWork
from kbgen.model.words import Person
from kbgen.route.route import Place

from .case import Case
from .energy_words import run_label

RULE = Rule(
    code="KB508",
    name="bare-live-work",
    severity=Severity.ERROR,
    summary="Live work names no hazard, no reason, or a qualification that before-you-start does not ask for.",
    rationale=(
        "Work on live parts is allowed only where it cannot be done dead, by a person who is qualified for it and "
        "knows what bites (OSHA 29 CFR 1910.333(a), EN 50110-1). The page must say all three before the work begins."
    ),
    remedy="List the hazard at the step, say why it cannot be done dead, and call for the qualification under before.",
    example=Example(
        "conveyors/drive-trips.yaml",
        good="        hazards: [shock]\n        ppe: [face-shield]\n        tools: [multimeter]\n",
        bad="        ppe: [face-shield]\n        tools: [multimeter]\n",
    ),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Report the steps of live work that leave out what must be known before them."""
    called_for = {str(one.qualification) for one in case.procedure.before.people}
    for place in case.walk.places.values():
        work = place.step.live_work
        if work is not None:
            for problem in _problems(place, work, called_for):
                message = f"Step {place.number}, “{place.step.id}”, is live work, but {problem}."
                yield Diagnostic(RULE, place.step.id.at, message, RULE.remedy, tuple(run_label(case.route, place)))


def _problems(place: Place, work: LiveWork, called_for: set[str]) -> Iterator[str]:
    if not place.hazards:
        yield "it names no hazard"
    if not work.reason.strip():
        yield "it does not say why it cannot be done dead"
    if str(work.qualification) not in called_for:
        yield f"before: people does not ask for “{work.qualification}”"
    if place.person is Person.OUTSIDE:
        yield "the person stands outside; say enclosure-open or hands-in"
