"""KB601: a temporary change may still be open where the job ends."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.analysis.open_items import OpenItem
from kbgen.diagnostics import Diagnostic, Example, Label, Rule, Severity
from kbgen.model.procedure import TemporaryChange
from kbgen.model.steps import Finish
from kbgen.model.words import Result
from kbgen.prose import plain
from kbgen.route.route import Place

from .case import Case
from .told_path import told

RULE = Rule(
    code="KB601",
    name="left-open",
    severity=Severity.ERROR,
    summary="The job can end as fixed, or go over to another procedure, while a temporary change is still open.",
    rationale=(
        "Nobody looks again once a job is closed. A bypass that stays in, or a guard that stays off, takes its "
        "protection away from everyone who comes to the machine afterwards, and none of them knows."
    ),
    remedy=(
        "Lead every path over a step that closes the change before it comes to this outcome; or end the path with "
        "order-part or escalate, where the page tells the next one what is open."
    ),
    example=Example(
        "conveyors/drive-trips.yaml",
        good="go: shorten, confirms: [overloaded]}",
        bad="go: fixed, confirms: [overloaded]}",
    ),
)

_ENDS = (Result.FIXED, Result.OTHER_PROCEDURE)


def check(case: Case) -> Iterator[Diagnostic]:
    """Report each change that can be open at an outcome after which nobody comes back to it."""
    declared = {str(one.id): one for one in case.procedure.temporary_changes}
    for key, place in case.walk.places.items():
        if isinstance(place.step, Finish) and place.step.result in _ENDS:
            for one in case.changes.open_at(key):
                yield _left_open(case, place, declared[one.item], one)


def _left_open(case: Case, place: Place, change: TemporaryChange, one: OpenItem[str]) -> Diagnostic:
    path = case.changes.path(place.key, one.item, True)
    opened = case.changes.last_set(path, one.item)
    way = told(case.walk, path, lambda step: one.item in case.changes.set_at.get(step.key, {}))
    is_open = "is still open" if one.always else "may still be open"
    return Diagnostic(
        RULE,
        place.step.id.at,
        f"“{change.what}” {is_open} at step {place.number}, “{place.key}”: {way}. "
        f"The protection that is lost then: {plain(change.protection_lost)}",
        f"Lead this path over an undo step with closes: {one.item} (back to: {change.original}), or end it with "
        "order-part or escalate, where the page tells the next one what is open.",
        (Label(opened.step.id.at, f"step {opened.number} opens “{one.item}”"),) if opened else (),
    )
