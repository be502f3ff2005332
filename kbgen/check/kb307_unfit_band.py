"""KB307: the band of a reading has no limits, or limits that exclude each other."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.steps import Band, Read

from .case import Case

RULE = Rule(
    code="KB307",
    name="unfit-band",
    severity=Severity.ERROR,
    summary="A band of a reading has no limits, two limits for the same end, or a lower limit above the upper one.",
    rationale=(
        "A reading that fits no band, or a band that no reading fits, leaves the judgement to the one who cannot make "
        "it."
    ),
    remedy=(
        "Give each band a lower end (from or above) and an upper end (to or below); leave one out only for open bands."
    ),
    example=Example(
        "conveyors/belt-slips.yaml", good="above: 20, to: 500, go: tighten", bad="above: 600, to: 500, go: tighten"
    ),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Report bands that no reading, or any reading, would fit."""
    for place in case.route.places.values():
        if isinstance(place.step, Read):
            for band in place.step.bands:
                problem = _problem(band)
                if problem:
                    yield Diagnostic(RULE, band.id.at, f"The band “{band.id}” {problem}.", RULE.remedy)


def _problem(band: Band) -> str:
    if band.from_ and band.above:
        return "has two lower ends, from and above"
    if band.to and band.below:
        return "has two upper ends, to and below"
    lower, upper = band.from_ or band.above, band.to or band.below
    if lower is None and upper is None:
        return "has no limits"
    if lower and upper and lower.unit == upper.unit and lower.number > upper.number:
        return f"starts at {lower} and ends at {upper}, so that no reading fits it"
    return ""
