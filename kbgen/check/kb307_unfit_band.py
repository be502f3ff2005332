"""KB307: the band of a reading has no limits, or limits that exclude each other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.steps import Band, Read

from .case import Case, TablesCase
from .readings import readings

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
    yield from _unfit(readings(case.procedure.steps))


def check_tables(case: TablesCase) -> Iterator[Diagnostic]:
    """Report the same for the shared sequences."""
    for sequence in case.shared.sequences.values():
        yield from _unfit(readings(sequence.steps))


def _unfit(steps: Iterable[Read]) -> Iterator[Diagnostic]:
    for step in steps:
        for band in step.bands:
            wrong = problem(band)
            if wrong:
                yield Diagnostic(RULE, band.id.at, f"The band “{band.id}” {wrong}.", RULE.remedy)


def problem(band: Band) -> str:
    """What is wrong with the limits of a band taken by itself; empty if nothing is."""
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
