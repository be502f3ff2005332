"""KB505: the absence of energy is to be shown by something that does not show it."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.steps import Prove
from kbgen.model.values import Quantity
from kbgen.model.words import EnergyKind, Means
from kbgen.units import convert, same_dimension, unit

from .case import Case

RULE = Rule(
    code="KB505",
    name="unfit-proof",
    severity=Severity.ERROR,
    summary="A proof uses a means that does not show the absence of this kind of energy, or an unproved tester.",
    rationale=(
        "A dark lamp, a motor that does not start and a wait of five minutes show nothing: the lamp may be broken. "
        "Absence of voltage is shown by a test alone, with a tester that is proved before and after "
        "(OSHA 29 CFR 1910.333(b)(2), NFPA 70E 120.5, EN 50110-1)."
    ),
    remedy=(
        "Prove voltage by voltage-test with tester-proved: before-and-after and below: at most 60 V; pressure by "
        "gauge or look, heat by thermometer, weight and springs by look."
    ),
    example=Example("tables/conveyors.yaml", good="            tester-proved: before-and-after\n", bad=""),
)

_VOLTAGE = frozenset({Means.VOLTAGE_TEST})
_MEASURING = frozenset({Means.VOLTAGE_TEST, Means.GAUGE, Means.THERMOMETER})
_SHOWN_BY = {
    EnergyKind.ELECTRICAL: _VOLTAGE,
    EnergyKind.STORED_ELECTRICAL: _VOLTAGE,
    EnergyKind.SECOND_SUPPLY: _VOLTAGE,
    EnergyKind.PNEUMATIC: frozenset({Means.GAUGE, Means.LOOK}),
    EnergyKind.HYDRAULIC: frozenset({Means.GAUGE, Means.LOOK}),
    EnergyKind.GRAVITY: frozenset({Means.LOOK}),
    EnergyKind.SPRING: frozenset({Means.LOOK}),
    EnergyKind.THERMAL: frozenset({Means.THERMOMETER}),
    EnergyKind.CHEMICAL: frozenset({Means.GAUGE}),
    EnergyKind.KINETIC: frozenset({Means.LOOK, Means.TRY_TO_START}),
}

# 60 V is the limit of IEC 60204-1, 6.2.4; OSHA 29 CFR 1910.333(a)(1) speaks of 50 V.
HIGHEST = 60.0
BEFORE_AND_AFTER = "before-and-after"


def check(case: Case) -> Iterator[Diagnostic]:
    """Report each proof of a source whose kind it cannot show."""
    for place in case.walk.places.values():
        known = case.shared.energy.get(place.source or "")
        if isinstance(place.step, Prove) and known:
            for problem in _problems(place.step, known.kind):
                message = f"Step “{place.step.id}” is to prove “{known.id}” ({known.kind.value}), but {problem}."
                yield Diagnostic(RULE, place.step.id.at, message, RULE.remedy)


def _problems(step: Prove, kind: EnergyKind) -> Iterator[str]:
    allowed = _SHOWN_BY[kind]
    if step.by not in allowed:
        yield f"{step.by.value} does not show it; {' or '.join(sorted(one.value for one in allowed))} does"
        return
    if step.by in _MEASURING and step.below is None:
        yield "it does not say below which value absence counts as shown"
    if step.by is Means.VOLTAGE_TEST:
        if step.tester_proved != BEFORE_AND_AFTER:
            yield f"its tester is not proved before and after (tester-proved: {BEFORE_AND_AFTER})"
        if step.below and _volts(step.below) > HIGHEST:
            yield f"{step.below} can still kill; the limit must be {HIGHEST:g} V or less"


def _volts(limit: Quantity) -> float:
    """The limit in volts; a unit that measures something else is reported elsewhere."""
    written, volt = unit(limit.unit), unit("V")
    if written is None or volt is None or not same_dimension(written, volt):
        return 0.0
    return convert(limit.number, written, volt)
