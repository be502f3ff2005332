"""Defects in temporary changes: not undone, undone twice, made without looking first."""

from __future__ import annotations

from collections.abc import Iterator

from tests.proof.edits import act_of, exchanged, less, onward
from tests.proof.scope import Edit, Mutator, Scope, all_links, dropping, instead, led, without
from tests.proof.tables import Data


def _twice(act: str) -> Mutator:
    def mutate(scope: Scope) -> Iterator[Edit]:
        for step in scope.acting(act):
            yield instead(scope, step, less(step, "go", "at-most", "after-that"), {**step, "id": f"{step['id']}-again"})

    return mutate


def _past(names: dict[str, Data], scope: Scope) -> Iterator[Edit]:
    for step, link in all_links(scope):
        if link.target in names and step["id"] != link.target:
            target = onward(scope.groups, names[link.target])
            if target:
                yield led(scope, step, link, target)


def _past_undo(scope: Scope) -> Iterator[Edit]:
    """A branch that led to the undoing leads to the step after it."""
    yield from _past({step["id"]: step for step in scope.acting("undo")}, scope)


def _undo_after_restart(scope: Scope) -> Iterator[Edit]:
    """What was taken off is put back after energy came back."""
    for step in scope.acting("undo"):
        target = onward(scope.groups, step)
        run = next((one for one in scope.runs("energise") if one["id"] == target), None)
        if run is not None:
            yield Edit(step["id"], exchanged(scope.groups, step, run))


def _dropping_duty(key: str) -> Mutator:
    """The step that a change relies on is left out."""

    def mutate(scope: Scope) -> Iterator[Edit]:
        for step in _duties(scope, key).values():
            yield from without(scope, step)

    return mutate


def _past_duties(scope: Scope) -> Iterator[Edit]:
    """A branch leads past a step that a change relies on."""
    yield from _past({**_duties(scope, "checked-at"), **_duties(scope, "recorded-at")}, scope)


def _duties(scope: Scope, key: str) -> dict[str, Data]:
    named = {change[key] for change in scope.changes if key in change}
    return {step["id"]: step for step in scope.steps if step["id"] in named}


def _change_before_check(scope: Scope) -> Iterator[Edit]:
    for key in ("checked-at", "recorded-at"):
        for change in scope.changes:
            duty = _duties(scope, key).get(change.get(key, ""))
            for step in scope.acting("change"):
                if duty is not None and step["opens"] == change["id"] and act_of(duty) != "run":
                    yield Edit(step["id"], exchanged(scope.groups, duty, step))


MUTATORS: dict[str, Mutator] = {
    "drop undo": dropping("undo"),
    "undo twice": _twice("undo"),
    "undo what was not changed": dropping("change"),
    "change twice": _twice("change"),
    "branch past an undo": _past_undo,
    "undo after the restart": _undo_after_restart,
    "drop check of a swap": _dropping_duty("checked-at"),
    "drop record before a change": _dropping_duty("recorded-at"),
    "branch past check or record": _past_duties,
    "change before its check": _change_before_check,
}
