"""KB209: a name exists, but not for this equipment or this alarm."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.steps import Ask, Window
from kbgen.model.values import Text

from .case import Case, TablesCase
from .near import did_you_mean

RULE = Rule(
    code="KB209",
    name="unfit-reference",
    severity=Severity.ERROR,
    summary="A variant, an alarm code or an alarm stage is named that this equipment or this display does not have.",
    rationale=(
        "A branch for a variant that the equipment family does not know is never offered, and a code that no display "
        "shows is never found."
    ),
    remedy="Correct the name, or add it to the family's variants or to the display's alarm list.",
    example=Example("conveyors/belt-slips.yaml", good="code: N-12, raised: always", bad="code: N-13, raised: always"),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Look variants up in the procedure's family, codes in their display and stages in their alarm."""
    variants = case.shared.variants_of(case.procedure.applies.family)
    if case.procedure.applies.family in case.shared.families:
        for name in _variants(case):
            if name not in variants:
                message = f"The family “{case.procedure.applies.family}” has no variant “{name}”."
                yield Diagnostic(RULE, name.at, message, did_you_mean(name, variants, RULE.remedy))
    for alarm in case.procedure.alarms:
        yield from _code(case, alarm.display, alarm.code)
    for window in _windows(case):
        yield from _code(case, window.display, window.code)
        yield from _stage(case, window)


def check_tables(case: TablesCase) -> Iterator[Diagnostic]:
    """Look the variants of units and parts up in their families."""
    shared = case.shared
    for unit in shared.units.values():
        yield from _known_variant(unit.variant, shared.variants_of(unit.family), f"family “{unit.family}”")
    for part in shared.parts.values():
        known = [variant for family in part.fits for variant in shared.variants_of(family)]
        for variant in part.variants:
            yield from _known_variant(variant, known, "families that the part fits")


def _known_variant(name: Text | None, known: Iterable[str], whose: str) -> Iterator[Diagnostic]:
    if name is not None and name not in set(known):
        yield Diagnostic(
            RULE, name.at, f"There is no variant “{name}” in the {whose}.", did_you_mean(name, known, RULE.remedy)
        )


def _variants(case: Case) -> Iterator[Text]:
    yield from case.procedure.applies.variants
    for group in case.procedure.steps:
        yield from group.only
    for place in case.route.places.values():
        yield from place.step.only
        if isinstance(place.step, Ask):
            yield from (answer.variant for answer in place.step.answers if answer.variant)


def _windows(case: Case) -> Iterator[Window]:
    yield from (group.before_stage for group in case.procedure.steps if group.before_stage)
    yield from (place.step.before_stage for place in case.route.places.values() if place.step.before_stage)


def _code(case: Case, display: Text, code: Text) -> Iterator[Diagnostic]:
    known = case.shared.displays.get(display)
    if known and (display, code) not in case.shared.alarms:
        codes = [alarm.code for alarm in known.alarms]
        message = f"The alarm list of “{display}” has no code “{code}”."
        yield Diagnostic(RULE, code.at, message, did_you_mean(code, codes, RULE.remedy))


def _stage(case: Case, window: Window) -> Iterator[Diagnostic]:
    alarm = case.shared.alarms.get((window.display, window.code))
    if alarm and window.stage not in {stage.id for stage in alarm.stages}:
        message = f"The alarm {window.code} has no stage “{window.stage}”."
        known = [stage.id for stage in alarm.stages]
        yield Diagnostic(RULE, window.stage.at, message, did_you_mean(window.stage, known, RULE.remedy))
