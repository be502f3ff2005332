"""KB204: a step points at a number that is not on its picture."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity

from .case import Case

RULE = Rule(
    code="KB204",
    name="unknown-callout",
    severity=Severity.ERROR,
    summary="A step names a number that is not on its picture, or a number stands on a picture twice.",
    rationale="“Loosen screw 3” with no number 3 on the picture sends a hand to the wrong screw.",
    remedy="Add the callout to the picture, or correct the number.",
    example=Example(
        "conveyors/belt-slips.yaml",
        good="        picture: drum\n",
        bad="        picture: drum\n        callouts: [3]\n",
    ),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Report numbers that a step names but its picture lacks, and numbers that a picture has twice."""
    numbers: dict[str, list[int]] = {}
    for picture in case.procedure.pictures:
        numbers[picture.id] = [callout.number for callout in picture.callouts]
        for callout in picture.callouts:
            if numbers[picture.id].count(callout.number) > 1:
                yield Diagnostic(
                    RULE, callout.at, f"The number {callout.number} stands on the picture twice.", RULE.remedy
                )
    for place in case.route.places.values():
        step = place.step
        if step.callouts and step.picture is None:
            yield Diagnostic(RULE, step.at, f"Step “{step.id}” names callouts but no picture.", RULE.remedy)
        for number in step.callouts:
            if step.picture in numbers and number not in numbers[step.picture]:
                message = f"Step “{step.id}” points at number {number}, which is not on the picture “{step.picture}”."
                yield Diagnostic(RULE, step.picture.at, message, RULE.remedy)
