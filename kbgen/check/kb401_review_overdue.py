"""KB401: an approved procedure is past its review date."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.words import DocumentState

from .case import Overview

RULE = Rule(
    code="KB401",
    name="review-overdue",
    severity=Severity.WARNING,
    summary="An approved procedure has not been looked through within its review interval.",
    rationale="Machines change. A limit that was right three years ago may belong to a unit that is no longer there.",
    remedy="Look the procedure through and set review: last, or withdraw it.",
    example=Example(
        "conveyors/belt-slips.yaml",
        good="review: {last: 2026-09-14, every: 12 months}",
        bad="review: {last: 2019-09-14, every: 12 months}",
    ),
)


def check(overview: Overview) -> Iterator[Diagnostic]:
    """Report approved procedures whose review fell due before the day that the check is run for."""
    if overview.as_of is None:
        return
    for digest in overview.digests:
        if digest.state == DocumentState.APPROVED.value and digest.review_due < overview.as_of:
            message = f"The review of “{digest.id}” was due on {digest.review_due.isoformat()}."
            yield Diagnostic(RULE, digest.review_at, message, RULE.remedy)
