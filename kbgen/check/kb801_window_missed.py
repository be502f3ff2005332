"""KB801: work can come too late for the alarm stage before which it must be done."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.analysis.spent import in_words
from kbgen.analysis.unwind import TooManySituationsError, spent_at
from kbgen.analysis.windows import Deadline, Need, deadlines, need
from kbgen.diagnostics import Diagnostic, Example, Rule, Severity

from .case import Case
from .told_path import told

RULE = Rule(
    code="KB801",
    name="window-missed",
    severity=Severity.ERROR,
    summary="On the longest path, work that must be done before an alarm stage takes longer than there is time.",
    rationale=(
        "Before a warning turns into an alarm there is still something to read or to start; afterwards it is gone. A "
        "window that is met only on a good day sends the technician on with half of what was to be found out."
    ),
    remedy=(
        "Do the work earlier, shorten what comes before it, or name a later stage. Where a restart lets the time run "
        "again, so that the work may be spread, write repeats: yes at before-stage."
    ),
    example=Example(
        "conveyors/drive-trips.yaml",
        good="        cannot-tell: {go: lengthen}\n        takes: 2 min\n",
        bad="        cannot-tell: {go: lengthen}\n        takes: 16 min\n",
    ),
)

_MATTERS = 10


def check(case: Case) -> Iterator[Diagnostic]:
    """Report each window into which the longest path to the end of its work does not fit."""
    for deadline in deadlines(case.route, case.shared):
        needed = _need(deadline, case)
        if deadline.allowed is not None and needed is not None and needed.spent.whole > deadline.allowed:
            yield Diagnostic(RULE, deadline.window.at, _message(deadline, deadline.allowed, needed, case), RULE.remedy)


def _need(deadline: Deadline, case: Case) -> Need | None:
    try:
        return need(deadline, case.procedure, case.walk) if deadline.allowed is not None else None
    except TooManySituationsError:
        return None


def _message(deadline: Deadline, allowed: int, needed: Need, case: Case) -> str:
    place = case.walk.places[needed.place]
    long, alarm = in_words(needed.spent.whole), deadline.alarm.code
    turns = f"{alarm} turns to “{deadline.stage.name}” {in_words(allowed)} after its first sign"
    if deadline.window.repeats:
        return f"Step {place.number}, “{place.step.id}”, takes {long} by itself, but {turns}, in every new window."
    least = needed.spent.whole / _MATTERS
    way = told(case.walk, needed.path, lambda one: spent_at(one.step).whole >= least)
    return f"It can take {long} until step {place.number}, “{place.step.id}”, is done, but {turns}: {way}."
