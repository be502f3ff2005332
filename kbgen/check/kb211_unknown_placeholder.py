"""KB211: a place in a text stands for an energy source that is not known."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.placeholders import PLACEHOLDER, PROPERTIES
from kbgen.model.scopes import Mention
from kbgen.model.shared import Shared
from kbgen.model.values import Kind, Prose

from .near import did_you_mean

RULE = Rule(
    code="KB211",
    name="unknown-placeholder",
    severity=Severity.ERROR,
    summary="A text names an energy source in braces that neither the tables nor the sequence know.",
    rationale="The technician would read “Open {suply.points}” where the isolation point belongs.",
    remedy=(
        "Write {NAME}, {NAME.points} or {NAME.prove} with the name of an energy source, or one that the sequence takes."
    ),
    example=Example(
        "tables/conveyors.yaml",
        good="isolate: Open {supply.points}.",
        bad="isolate: Open {suply.points}.",
    ),
)


def check(prose: Iterable[Prose], names: Iterable[Mention], shared: Shared) -> Iterator[Diagnostic]:
    """Look up each name in braces in the texts of one file."""
    known = {*shared.energy, *(name.text for name in names if name.kind is Kind.ENERGY)}
    for text in prose:
        if "{" not in text:
            continue
        for found in PLACEHOLDER.finditer(text):
            if found[1] not in known:
                message = f"There is no energy source named “{found[1]}” for {found[0]}."
                yield Diagnostic(RULE, text.at, message, did_you_mean(found[1], known, RULE.remedy))
            elif found[2] and found[2] not in PROPERTIES:
                message = f"{found[0]} asks for something that is not known of an energy source."
                yield Diagnostic(RULE, text.at, message, did_you_mean(found[2], PROPERTIES, RULE.remedy))
