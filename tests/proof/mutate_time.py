"""Defects in time: work that takes longer, or that must be done before an earlier stage of the alarm."""

from __future__ import annotations

from collections.abc import Iterator

from tests.proof.edits import act_of, changed, group_of, replaced, with_group
from tests.proof.scope import Edit, Mutator, Scope, instead
from tests.proof.tables import Data
from tests.proof.units import seconds


def _slow_step(scope: Scope) -> Iterator[Edit]:
    """A step in or before a window takes twenty times as long."""
    windowed = [place for place, step in enumerate(scope.steps) if _window(scope, step)]
    for step in scope.steps[: max(windowed) + 1 if windowed else 0]:
        key = "wait" if act_of(step) == "wait" else "takes"
        if key in step:
            yield instead(scope, step, {**step, key: f"{seconds(step[key]) * 20:.0f} s"})


def _window(scope: Scope, step: Data) -> Data | None:
    return step.get("before-stage") or group_of(scope.groups, step).get("before-stage")


def _earlier_stage(scope: Scope) -> Iterator[Edit]:
    """The work must be done before a stage that is earlier."""
    for holder in (*scope.groups, *scope.steps):
        window = holder.get("before-stage")
        for stage in _other_stages(scope, window) if window else ():
            yield _put(scope, holder, changed(holder, ("before-stage", "stage"), stage))


def _other_stages(scope: Scope, window: Data) -> list[str]:
    alarm = (window["display"], str(window["code"]))
    return [stage for *shown, stage in scope.tables.stages if tuple(shown) == alarm and stage != window["stage"]]


def _put(scope: Scope, holder: Data, new: Data) -> Edit:
    if "steps" in holder:
        return Edit(f"group {holder['group']}", with_group(scope.groups, holder, new))
    return Edit(holder["id"], replaced(scope.groups, holder, new))


def _later_window(scope: Scope) -> Iterator[Edit]:
    """A later group must be done before the stage as well."""
    windows = [group["before-stage"] for group in scope.groups if "before-stage" in group]
    for window in windows[:1]:
        for group in scope.groups:
            if "before-stage" not in group and any(act_of(step) != "outcome" for step in group["steps"]):
                yield _put(scope, group, {**group, "before-stage": window})


MUTATORS: dict[str, Mutator] = {
    "slow step": _slow_step,
    "earlier stage": _earlier_stage,
    "window on later work": _later_window,
}
