"""KB602: a step puts back what was not changed, or changes what is changed already."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Label, Rule, Severity
from kbgen.model.steps import Change
from kbgen.route.route import Place

from .case import Case
from .told_path import told

RULE = Rule(
    code="KB602",
    name="change-out-of-turn",
    severity=Severity.ERROR,
    summary=(
        "A path comes to a step that closes a temporary change while the change is not open, or to one that opens it "
        "while it is open already."
    ),
    rationale=(
        "Who is told to put back what was never changed looks for it in vain, or puts a wrong value in. Who makes the "
        "same change twice writes down the changed value as the original one, and the original is lost."
    ),
    remedy="Lead the path so that each opening of the change is followed by one closing, and each closing by none.",
    example=Example(
        "conveyors/drive-trips.yaml",
        good='{id: later, answer: "No", go: lengthen}',
        bad='{id: later, answer: "No", go: shorten}',
    ),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Report the steps that open or close a change that already is as they leave it."""
    for key, left in case.changes.set_at.items():
        for change, is_open in left.items():
            if is_open in case.changes.states(key, change):
                yield _out_of_turn(case, case.walk.places[key], change, is_open)


def _out_of_turn(case: Case, place: Place, change: str, is_open: bool) -> Diagnostic:
    path = case.changes.path(place.key, change, is_open)
    before = case.changes.last_set(path, change)
    way = told(case.walk, path, lambda step: change in case.changes.set_at.get(step.key, {}))
    what = (
        f"opens the change “{change}”, which is open already on this path, so that its original value is overwritten"
        if isinstance(place.step, Change)
        else f"closes the change “{change}”, which is not open on this path"
    )
    done = "opens" if is_open else "closes"
    return Diagnostic(
        RULE,
        place.step.id.at,
        f"Step {place.number}, “{place.key}”, {what}: {way}.",
        RULE.remedy,
        (Label(before.step.id.at, f"step {before.number} {done} it before"),) if before else (),
    )
