"""KB308: a check names the causes it finds but not how long it takes."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.steps import Ask, Read

from .case import Case

RULE = Rule(
    code="KB308",
    name="check-without-time",
    severity=Severity.WARNING,
    summary="A check that finds causes does not say how long it takes.",
    rationale=(
        "The best order of checks weighs what a check can find against the time it costs; without a time it has no "
        "place."
    ),
    remedy="Add takes with the usual working time.",
    example=Example(
        "conveyors/belt-slips.yaml",
        good="        finds: [{cause: slack-belt, certainty: 0.95}]\n        takes: 4 min\n",
        bad="        finds: [{cause: slack-belt, certainty: 0.95}]\n",
    ),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Report checks without a working time."""
    for place in case.route.places.values():
        step = place.step
        if isinstance(step, (Ask, Read)) and step.finds and step.takes is None:
            message = f"Step {place.number}, “{place.key}”, finds causes but does not say how long it takes."
            yield Diagnostic(RULE, step.id.at, message, RULE.remedy)
