"""KB302: a path stops without an outcome."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Label, Rule, Severity
from kbgen.model.steps import End, Finish
from kbgen.route.digraph import path, reachable, reverse
from kbgen.route.route import Place, Route

from .case import Case, TablesCase

RULE = Rule(
    code="KB302",
    name="dead-end",
    severity=Severity.ERROR,
    summary="A path through the procedure does not end in an outcome.",
    rationale=(
        "A technician who comes to the end of the text without being told fixed, order or call does not know whether "
        "the machine may run."
    ),
    remedy="Let the last step lead to an outcome step.",
    example=Example(
        "conveyors/belt-slips.yaml",
        good="        outcome: It cannot be told from outside, or voltage was found.\n        result: escalate\n"
        "        contact: maintenance-lead\n        report: [What was seen, What the tester showed]\n",
        bad="        do: Ask the maintenance lead.\n",
    ),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Report the steps from which nothing leads on, and the loops from which no outcome can be reached."""
    yield from _stuck(case.route)


def check_tables(case: TablesCase) -> Iterator[Diagnostic]:
    """Report the same for the shared sequences, which must come to one of their ends."""
    for route in case.sequences:
        yield from _stuck(route)


def _stuck(route: Route) -> Iterator[Diagnostic]:
    for key in route.dead_ends:
        place = route.places[key]
        message = f"Step {place.number}, “{key}”, leads nowhere: {_walked(route, key)}."
        yield Diagnostic(RULE, place.step.id.at, message, RULE.remedy)
    trapped = _trapped(route)
    if trapped:
        first, *others = trapped
        labels = tuple(Label(one.step.id.at, f"step {one.number} belongs to it") for one in others)
        message = f"From step {first.number}, “{first.key}”, no outcome can be reached."
        yield Diagnostic(RULE, first.step.id.at, message, RULE.remedy, labels)


def _walked(route: Route, key: str) -> str:
    steps = path(route.graph, route.start, key)
    return (
        "start -> " + " -> ".join(f"{route.places[one].number} {one}" for one in steps)
        if steps
        else "it is unreachable"
    )


def _trapped(route: Route) -> list[Place]:
    """Steps that only lead round in circles; looked for when every other way leads on."""
    if route.dead_ends:
        return []
    ends = [key for key, place in route.places.items() if isinstance(place.step, (Finish, End))]
    free = reachable(reverse(route.graph), ends)
    return [place for key, place in route.places.items() if key not in free]
