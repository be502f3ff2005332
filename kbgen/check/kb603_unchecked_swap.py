"""KB603: a unit is swapped, or a feedback disconnected, without a check of what fits and of what can be lost."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from kbgen.diagnostics import Diagnostic, Example, Label, Rule, Severity
from kbgen.model.procedure import TemporaryChange
from kbgen.model.values import Text
from kbgen.model.words import ChangeKind, Loss
from kbgen.route.flow import trail
from kbgen.route.route import Place, Way

from .case import Case
from .told_path import Path, told

RULE = Rule(
    code="KB603",
    name="unchecked-swap",
    severity=Severity.ERROR,
    summary=(
        "A unit is swapped or a feedback disconnected without saying what can be lost, or on a path that leaves out "
        "the step that checks the unit or saves what can be lost."
    ),
    rationale=(
        "A unit of another rating can start the machine wrongly or burn out. Parameters that nobody saved, or a "
        "reference position that nobody wrote down, are gone once the plug is out: the machine then moves from a wrong "
        "zero."
    ),
    remedy=(
        "State loses (data, reference-position or none), name the step that saves or writes it down in recorded-at and "
        "the step that compares a swapped unit in checked-at, and lead every path to the change over these steps."
    ),
    example=Example(
        "conveyors/drive-trips.yaml",
        good='{id: at-once, answer: "Yes", go: save-parameters}',
        bad='{id: at-once, answer: "Yes", go: compare-plates}',
    ),
)

_LOST = {Loss.DATA: "data", Loss.REFERENCE: "the reference position"}


class Duty(NamedTuple):
    """A step that must come before a change: the key that names it, and what happens without it."""

    key: str
    step: Text
    without: str


def check(case: Case) -> Iterator[Diagnostic]:
    """Report what a change leaves unsaid, and the paths to it past the steps that must come first."""
    for change in case.procedure.temporary_changes:
        yield from _unsaid(change)
        for duty in _duties(change):
            for place in _openings(case, change):
                yield from _passed_by(case, place, duty)


def _unsaid(change: TemporaryChange) -> Iterator[Diagnostic]:
    swapped = change.kind is ChangeKind.SWAPPED_UNIT
    if swapped and not change.checked_at:
        message = f"The change “{change.id}” swaps a unit, but no step shows that the unit put in fits."
        yield Diagnostic(RULE, change.id.at, message, "Name the step that compares the two units in checked-at.")
    if change.loses is None and (swapped or change.kind is ChangeKind.DISCONNECTED_FEEDBACK):
        message = f"The change “{change.id}” does not say what can be lost for good when it is made."
        yield Diagnostic(RULE, change.id.at, message, "Add loses: [data], [reference-position], both, or none.")
    if change.loses and not change.recorded_at:
        message = f"The change “{change.id}” can lose {_lost(change)} for good, but no step saves that before."
        yield Diagnostic(RULE, change.id.at, message, "Name the step that saves it or writes it down in recorded-at.")


def _duties(change: TemporaryChange) -> Iterator[Duty]:
    if change.checked_at:
        yield Duty("checked-at", change.checked_at, "nobody knows whether the unit fits")
    if change.recorded_at:
        yield Duty("recorded-at", change.recorded_at, f"{_lost(change)} can be lost for good")


def _lost(change: TemporaryChange) -> str:
    return " and ".join(_LOST[one] for one in change.loses or ()) or "what was not written down"


def _openings(case: Case, change: TemporaryChange) -> Iterator[Place]:
    for key, left in case.changes.set_at.items():
        if left.get(str(change.id)):
            yield case.walk.places[key]


def _passed_by(case: Case, place: Place, duty: Duty) -> Iterator[Diagnostic]:
    must = case.route.places.get(duty.step)
    path = _path_without(case, must, place) if must else []
    if path:
        way = told(case.walk, path, lambda step: False)
        message = f"Step “{duty.step}” is not passed before step {place.number}, “{place.key}”, on this path: {way}. "
        yield Diagnostic(
            RULE,
            duty.step.at,
            f"{message}Then {duty.without}.",
            f"Lead every path to step {place.number} over the step named in {duty.key}.",
            (Label(place.step.id.at, f"step {place.number} makes the change"),),
        )


def _path_without(case: Case, must: Place, goal: Place) -> Path:
    """A path to a step on which another step has not been left yet."""
    entered = must.inside[0].key if must.inside else must.key

    def along(key: str, way: Way, values: frozenset[bool]) -> frozenset[bool]:
        return frozenset() if key == entered else values

    return trail(case.walk.start, False, case.walk.edges, along, lambda key, passed: key == goal.key)
