"""KB210: a link leads to a procedure or step that does not exist."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.values import Text

from .case import Overview
from .near import did_you_mean

RULE = Rule(
    code="KB210",
    name="unknown-procedure",
    severity=Severity.ERROR,
    summary="A procedure, or a step in one, is named that does not exist.",
    rationale="“Go on with the procedure for …” must lead somewhere when the technician taps on it.",
    remedy="Correct the name, or write the procedure.",
    example=Example("conveyors/belt-slips.yaml", good="procedure: belt-stands", bad="procedure: belt-stand"),
)


def check(overview: Overview) -> Iterator[Diagnostic]:
    """Look up every procedure that procedures and alarm lists name, once all files can be read."""
    if not overview.complete:
        return
    known = overview.by_id
    for digest in overview.digests:
        for link in digest.links:
            yield from _link(link, overview)
    for alarm in overview.shared.alarms.values():
        for answer in alarm.tell_apart.answers if alarm.tell_apart else ():
            if answer.procedure not in known:
                yield _unknown(answer.procedure, str(answer.procedure), known)


def _link(link: Text, overview: Overview) -> Iterator[Diagnostic]:
    target, _, step = link.partition("#")
    digest = overview.by_id.get(target)
    if digest is None:
        yield _unknown(link, target, overview.by_id)
    elif step and step not in digest.anchors:
        message = f"The procedure “{target}” has no step “{step}”."
        yield Diagnostic(RULE, link.at, message, did_you_mean(step, digest.anchors, RULE.remedy))


def _unknown(link: Text, target: str, known: Iterable[str]) -> Diagnostic:
    message = f"There is no procedure named “{target}”."
    return Diagnostic(RULE, link.at, message, did_you_mean(target, known, RULE.remedy))
