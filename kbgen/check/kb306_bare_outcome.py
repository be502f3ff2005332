"""KB306: an outcome does not say what it takes to act on it."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.steps import Finish
from kbgen.model.words import Result

from .case import Case

RULE = Rule(
    code="KB306",
    name="bare-outcome",
    severity=Severity.ERROR,
    summary="An outcome leaves out whom to call, what to report, what to order or which procedure comes next.",
    rationale=(
        "The end of a procedure is a hand-over. A call without the readings costs the next person the same hour again."
    ),
    remedy=(
        "escalate needs contact and report; order-part needs orders; other-procedure needs procedure; fixed "
        "needs causes."
    ),
    example=Example(
        "conveyors/belt-slips.yaml",
        good="        report: [How far the belt gave before and after tightening]\n",
        bad="",
    ),
)

_NEEDS = {
    Result.FIXED: ("causes",),
    Result.ORDER_PART: ("orders",),
    Result.ESCALATE: ("contact", "report"),
    Result.OTHER_PROCEDURE: ("procedure",),
}


def check(case: Case) -> Iterator[Diagnostic]:
    """Report outcomes that lack what their kind needs."""
    for place in case.route.places.values():
        step = place.step
        if isinstance(step, Finish):
            for field in _NEEDS[step.result]:
                if not getattr(step, field):
                    message = f"The outcome “{step.id}” is {step.result.value}, but it has no {field}."
                    yield Diagnostic(RULE, step.id.at, message, RULE.remedy)
