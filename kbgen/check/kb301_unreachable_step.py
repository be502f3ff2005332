"""KB301: no path leads to a step."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.route.digraph import reachable
from kbgen.route.route import Route

from .case import Case, TablesCase

RULE = Rule(
    code="KB301",
    name="unreachable-step",
    severity=Severity.ERROR,
    summary="A step is never reached from the start.",
    rationale="What nobody is led to is never done: it may be the step that puts the guard back.",
    remedy="Let an answer or a go lead to the step, or remove it.",
    example=Example(
        "conveyors/belt-slips.yaml",
        good="        go: part\n",
        bad="        go: hand-over\n",
    ),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Report the steps of a procedure that cannot be reached."""
    yield from _unreachable(case.route)


def check_tables(case: TablesCase) -> Iterator[Diagnostic]:
    """Report the same for the shared sequences."""
    for route in case.sequences:
        yield from _unreachable(route)


def _unreachable(route: Route) -> Iterator[Diagnostic]:
    reached = reachable(route.graph, [route.start])
    for key, place in route.places.items():
        if key not in reached:
            message = f"No path from the start leads to step {place.number}, “{key}”."
            yield Diagnostic(RULE, place.step.id.at, message, RULE.remedy)
