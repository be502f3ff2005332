"""KB305: a step does not say where the person is or what state an energy source must have."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.steps import End, Group

from .case import Case, TablesCase

RULE = Rule(
    code="KB305",
    name="unstated-work",
    severity=Severity.ERROR,
    summary="A step leaves open where the person is, or what state an energy source must have.",
    rationale=(
        "What is left open cannot be proved. A step with hands in the machine that does not mention the raised load "
        "would pass for safe because nobody thought of the load."
    ),
    remedy=(
        "Say person and energy at the group, for all energy sources under before: energy; override them at a step "
        "where it differs. Write any where the step is safe in every state."
    ),
    example=Example(
        "conveyors/belt-slips.yaml",
        good="    person: hands-in\n    energy: {conveyor-mains: verified}\n",
        bad="    person: hands-in\n",
    ),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Report the groups of a procedure in which a step leaves person or energy open."""
    yield from _groups(case.procedure.steps, [str(source) for source in case.procedure.before.energy])


def check_tables(case: TablesCase) -> Iterator[Diagnostic]:
    """Report the same for the shared sequences, whose steps speak of the energy sources that they take."""
    for sequence in case.shared.sequences.values():
        yield from _groups(sequence.steps, [str(name) for name in sequence.takes])


def _groups(groups: Iterable[Group], sources: list[str]) -> Iterator[Diagnostic]:
    for group in groups:
        for step in group.steps:
            if step is None or isinstance(step, End):
                continue
            stated = {**(group.energy or {}), **(step.energy or {})}
            missing = [source for source in sources if source not in stated]
            if missing:
                names = ", ".join(f"“{name}”" for name in missing)
                message = f"Step “{step.id}” does not say what state {names} must have."
                yield Diagnostic(RULE, step.id.at, message, RULE.remedy)
            if (step.person or group.person) is None:
                yield Diagnostic(RULE, step.id.at, f"Step “{step.id}” does not say where the person is.", RULE.remedy)
