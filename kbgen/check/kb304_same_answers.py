"""KB304: a question whose answers cannot be told apart, or lead to the same step."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Label, Rule, Severity
from kbgen.model.steps import Answer, Ask, Band, Read
from kbgen.route.route import Place, Route

from .case import Case, TablesCase

RULE = Rule(
    code="KB304",
    name="same-answers",
    severity=Severity.ERROR,
    summary="Two answers of a question read alike, or all its answers lead to the same step.",
    rationale="A question is there to decide something. If it decides nothing, it costs time and hides a mistake.",
    remedy="Give each answer words of its own and a way of its own, or turn the question into an instruction.",
    example=Example(
        "conveyors/belt-slips.yaml",
        good='answer: "No, both stand still", go: not-this',
        bad='answer: "Yes, the drum turns", go: not-this',
    ),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Compare the answers of each question and the bands of each reading."""
    yield from _same(case.route)


def check_tables(case: TablesCase) -> Iterator[Diagnostic]:
    """Do the same for the shared sequences."""
    for route in case.sequences:
        yield from _same(route)


def _same(route: Route) -> Iterator[Diagnostic]:
    for place in route.places.values():
        if isinstance(place.step, (Ask, Read)):
            yield from _alike(place.step)
            yield from _one_way(place, route)


def _alike(step: Ask | Read) -> Iterator[Diagnostic]:
    seen: dict[str, int] = {}
    exits: tuple[Answer | Band, ...] = step.answers if isinstance(step, Ask) else step.bands
    for number, one in enumerate(exits):
        text = " ".join(one.answer.lower().split())
        if text and text in seen:
            label = Label(exits[seen[text]].answer.at, "the same words stand here")
            message = f"Step “{step.id}” has two answers that read “{one.answer}”."
            yield Diagnostic(RULE, one.answer.at, message, RULE.remedy, (label,))
        seen.setdefault(text, number)


def _one_way(place: Place, route: Route) -> Iterator[Diagnostic]:
    step = place.step
    given = [way for way in route.ways_from(place.key) if way.answer not in ("cannot-tell", "not-available")]
    tells_something = any(
        getattr(one, "confirms", ()) or getattr(one, "variant", None) or getattr(one, "symptom", None)
        for one in getattr(step, "answers", ()) or getattr(step, "bands", ())
    )
    if len(given) > 1 and len({way.target for way in given}) == 1 and not tells_something:
        message = f"All answers of step {place.number}, “{place.key}”, lead to “{given[0].target}”."
        yield Diagnostic(RULE, step.id.at, message, RULE.remedy)
