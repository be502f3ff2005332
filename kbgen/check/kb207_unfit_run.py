"""KB207: a shared sequence is run in a way that does not fit it."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.steps import Run
from kbgen.model.tables import SharedSequence

from .case import Case
from .near import did_you_mean

RULE = Rule(
    code="KB207",
    name="unfit-run",
    severity=Severity.ERROR,
    summary="A step runs a shared sequence but misses an outcome or an energy source that the sequence has.",
    rationale=(
        "A sequence that isolates and proves can end with “voltage was found”. A procedure that has no way on from "
        "there lets the technician go on as if it were dead."
    ),
    remedy="Under outcomes, name every outcome of the sequence; under with, every energy source that it takes.",
    example=Example(
        "conveyors/belt-slips.yaml",
        good="outcomes: {proved: guard-off, not-proved: call}",
        bad="outcomes: {proved: guard-off}",
    ),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Compare each run with what its sequence takes and how it can end."""
    for place in case.route.places.values():
        step = place.step
        if isinstance(step, Run) and step.run in case.shared.sequences:
            sequence = case.shared.sequences[step.run]
            yield from _outcomes(step, sequence)
            yield from _bindings(step, sequence)


def _outcomes(step: Run, sequence: SharedSequence) -> Iterator[Diagnostic]:
    known = {str(one.id): str(one.text) for one in sequence.outcomes}
    given = {str(name) for name in step.outcomes}
    for name in known.keys() - given:
        message = f"Step “{step.id}” has no way on from the outcome “{name}” ({known[name]}) of “{sequence.id}”."
        yield Diagnostic(RULE, step.run.at, message, f"Add “{name}: STEP” under outcomes.")
    for outcome in step.outcomes:
        if outcome not in known:
            message = f"The sequence “{sequence.id}” has no outcome “{outcome}”."
            yield Diagnostic(RULE, outcome.at, message, did_you_mean(outcome, known, RULE.remedy))


def _bindings(step: Run, sequence: SharedSequence) -> Iterator[Diagnostic]:
    taken = {str(name) for name in sequence.takes}
    given = step.with_ or {}
    for name in sorted(taken - {str(one) for one in given}):
        message = f"Step “{step.id}” does not say which energy source stands for “{name}” in “{sequence.id}”."
        yield Diagnostic(RULE, step.run.at, message, f"Add “with: {{{name}: ENERGY SOURCE}}”.")
    for given_name in given:
        if given_name not in taken:
            message = f"The sequence “{sequence.id}” takes no energy source named “{given_name}”."
            yield Diagnostic(RULE, given_name.at, message, did_you_mean(given_name, taken, RULE.remedy))
