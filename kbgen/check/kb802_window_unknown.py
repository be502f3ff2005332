"""KB802: whether work is done before its alarm stage cannot be told."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.analysis.unwind import MOST_SITUATIONS, TooManySituationsError
from kbgen.analysis.windows import Deadline, deadlines, need
from kbgen.diagnostics import Diagnostic, Example, Label, Rule, Severity

from .case import Case

RULE = Rule(
    code="KB802",
    name="window-unknown",
    severity=Severity.WARNING,
    summary="Work must be done before an alarm stage, but how much time there is, or how long it takes, is not known.",
    rationale=(
        "The page tells the technician to be done before the stage. Without a time he cannot judge whether he can "
        "still make it, and no check can tell that the window is long enough."
    ),
    remedy="In the alarm list of the display, give the stage its after: the time since the fault until it begins.",
    example=Example(
        "tables/drives.yaml",
        good="            after: 20 min\n",
        bad="",
    ),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Report each window whose stage has no time, or to which too many paths lead."""
    for deadline in deadlines(case.route, case.shared):
        if deadline.allowed is None:
            message = f"When {deadline.alarm.code} turns to “{deadline.stage.name}” is not in the alarm list."
            label = Label(deadline.stage.at, "this stage has no after")
            yield Diagnostic(RULE, deadline.window.at, message, RULE.remedy, (label,))
        elif _is_too_long(deadline, case):
            message = f"The loops before this work can be gone through in more than {MOST_SITUATIONS:,} combinations."
            help = "Lower the limits of the ways back, or do the work before them."
            yield Diagnostic(RULE, deadline.window.at, message, help)


def _is_too_long(deadline: Deadline, case: Case) -> bool:
    try:
        need(deadline, case.procedure, case.walk)
    except TooManySituationsError:
        return True
    return False
