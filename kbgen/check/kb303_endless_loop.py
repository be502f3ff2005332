"""KB303: a loop has no stated limit."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from kbgen.diagnostics import Diagnostic, Example, Label, Rule, Severity
from kbgen.model.steps import Exit, Onward
from kbgen.place import Span
from kbgen.route.digraph import cycles
from kbgen.route.route import Place, Route

from .case import Case, TablesCase

RULE = Rule(
    code="KB303",
    name="endless-loop",
    severity=Severity.ERROR,
    summary="A way back to an earlier step has no limit, or no way on when the limit is reached.",
    rationale=(
        "“Tighten and measure again” without a limit keeps a technician at it until the thread strips. A stated number "
        "of tries, and what comes after them, ends it."
    ),
    remedy="At the way back, add at-most with a number, and after-that with the step that follows when it is used up.",
    example=Example(
        "conveyors/belt-slips.yaml",
        good="        at-most: 2\n        after-that: hand-over\n",
        bad="        after-that: hand-over\n",
    ),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Report the loops that are left when all ways with a limit are taken away, and limits without a way on."""
    yield from _endless(case.route)


def check_tables(case: TablesCase) -> Iterator[Diagnostic]:
    """Report the same for the shared sequences."""
    for route in case.sequences:
        yield from _endless(route)


def _endless(route: Route) -> Iterator[Diagnostic]:
    for loop in cycles(_unlimited(route)):
        places = [route.places[key] for key in loop]
        names = " -> ".join(f"{place.number} {place.key}" for place in (*places, places[0]))
        labels = tuple(Label(place.step.id.at, f"step {place.number} belongs to the loop") for place in places[:-1])
        yield Diagnostic(RULE, _way_back(route, places), f"This loop has no limit: {names}.", RULE.remedy, labels)
    for place in route.places.values():
        yield from _without_way_on(place)


def _unlimited(route: Route) -> Mapping[str, Sequence[str]]:
    graph: dict[str, list[str]] = {key: [] for key in route.places}
    for way in route.ways:
        if way.limit is None:
            graph[way.source].append(way.target)
    return graph


def _way_back(route: Route, places: Sequence[Place]) -> Span:
    last, first = places[-1], places[0]
    return next(way.at for way in route.ways_from(last.key) if way.target == first.key and way.limit is None)


def _without_way_on(place: Place) -> Iterator[Diagnostic]:
    step = place.step
    exits: list[Exit | Onward] = [*getattr(step, "answers", ()), *getattr(step, "bands", ())]
    exits += [one for name in ("cannot_tell", "not_available") if (one := getattr(step, name, None))]
    exits += [step] if isinstance(step, Onward) else []
    for exit in exits:
        if (exit.at_most is None) != (exit.after_that is None):
            missing = "after-that" if exit.after_that is None else "at-most"
            message = f"Step {place.number}, “{place.key}”, limits a way back but does not say {missing}."
            yield Diagnostic(RULE, step.id.at, message, RULE.remedy)
