"""KB507: a wait for a charge to drain away rests on no figures."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.analysis.circuit import acted_on
from kbgen.analysis.discharge import draining_time
from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.steps import Wait
from kbgen.model.words import EnergyKind

from .case import Case

RULE = Rule(
    code="KB507",
    name="wait-without-data",
    severity=Severity.WARNING,
    summary="A wait lets a charge drain away, but the tables do not say from what its time follows.",
    rationale=(
        "“Wait five minutes” is no proof: 800 V on 2,000 µF with 100 kΩ still holds 178 V after five minutes. "
        "Without resistance, capacitance and voltages nobody can tell whether the wait is long enough."
    ),
    remedy="Give the source stored: resistance, capacitance, voltage and safe-voltage, from the maker's manual.",
    example=Example("tables/drives.yaml", good="      capacitance: 330 µF\n", bad=""),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Report the waits on stored electrical energy whose time cannot be worked out."""
    for place in case.walk.places.values():
        if isinstance(place.step, Wait):
            source = case.shared.energy.get(acted_on(place) or "")
            if source and source.kind is EnergyKind.STORED_ELECTRICAL and draining_time(source) is None:
                message = (
                    f"“{source.id}” does not state resistance, capacitance, voltage and safe voltage, so that nobody "
                    f"can tell whether the wait “{place.step.id}” is long enough."
                )
                yield Diagnostic(RULE, source.id.at, message, RULE.remedy)
