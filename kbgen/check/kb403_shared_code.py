"""KB403: one code leads to several procedures, and nothing tells them apart."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.analysis.digest import CodeShown, Digest
from kbgen.diagnostics import Diagnostic, Example, Label, Rule, Severity
from kbgen.model.tables import Alarm
from kbgen.model.words import DocumentState

from .case import Overview

RULE = Rule(
    code="KB403",
    name="shared-code",
    severity=Severity.ERROR,
    summary="Two procedures are for the same code on the same display, and no question decides between them.",
    rationale="Whoever reads the code off the display would have to guess which of the two faults it is.",
    remedy="Add tell-apart to the code in the display's alarm list, with an answer for each of the procedures.",
    example=Example(
        "tables/conveyors.yaml",
        good='            - {answer: "No, drum and belt stand still", procedure: belt-stands}\n',
        bad='            - {answer: "No, drum and belt stand still", procedure: belt-slips}\n',
    ),
)


def check(overview: Overview) -> Iterator[Diagnostic]:
    """Report codes of which a procedure is not among the answers of the deciding question."""
    users: dict[tuple[str, str], list[tuple[Digest, CodeShown]]] = {}
    for digest in overview.digests:
        if digest.state != DocumentState.WITHDRAWN.value:
            for code in digest.codes:
                users.setdefault((code.display, code.code), []).append((digest, code))
    for key, using in users.items():
        alarm = overview.shared.alarms.get(key)
        if alarm is not None and len({digest.id for digest, _ in using}) > 1:
            yield from _undecided(alarm, using)


def _undecided(alarm: Alarm, using: list[tuple[Digest, CodeShown]]) -> Iterator[Diagnostic]:
    answered = {str(answer.procedure) for answer in alarm.tell_apart.answers} if alarm.tell_apart else set()
    for digest, code in using:
        if digest.id not in answered:
            other = next((d, c) for d, c in using if d.id != digest.id)
            message = (
                f"The code {alarm.code} leads to “{digest.id}” and to “{other[0].id}”, and no answer tells "
                f"“{digest.id}” apart."
            )
            yield Diagnostic(RULE, code.at, message, RULE.remedy, (Label(other[1].at, "the other use of the code"),))
