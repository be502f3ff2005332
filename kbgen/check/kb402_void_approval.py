"""KB402: a procedure counts as approved, but its content is not what was approved."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.fingerprint import fingerprint
from kbgen.model.words import DocumentState

from .case import Case

RULE = Rule(
    code="KB402",
    name="void-approval",
    severity=Severity.ERROR,
    summary="An approved procedure has no approval, or was changed after it.",
    rationale=(
        "The word approved tells the technician that someone who answers for it has read exactly this text. An edit "
        "after the approval, also in the shared sequences, hazards and energy sources it uses, makes that untrue."
    ),
    remedy=(
        "Have it read again and record the approval with kbgen approve FILE --role ROLE, or set its state to in-review."
    ),
    example=Example(
        "conveyors/belt-slips.yaml", good="weight: 6, basis: judgement", bad="weight: 60, basis: judgement"
    ),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Compare the hash in each approval with the content as it is now."""
    procedure = case.procedure
    if procedure.state is not DocumentState.APPROVED:
        return
    if not procedure.approvals:
        message = "The procedure is approved, but no approval is recorded."
        yield Diagnostic(RULE, procedure.id.at, message, RULE.remedy)
        return
    now = fingerprint(procedure, case.shared)
    for approval in procedure.approvals:
        if approval.content != now:
            message = (
                f"The content was changed after the approval by the {approval.role} on {approval.date.isoformat()}."
            )
            yield Diagnostic(RULE, approval.content.at, message, RULE.remedy)
