"""KB907: a text names an alarm code or a part number that the tables do not have."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.language.lookup import lookup
from kbgen.prose import plain

from .narrow import part_of
from .near import did_you_mean
from .speech import Said, Speech

RULE = Rule(
    code="KB907",
    name="unknown-code",
    severity=Severity.WARNING,
    summary="A text names what looks like an alarm code or a part number but is not in the tables.",
    rationale=(
        "A wrong digit orders a wrong part, and a code that no display shows is waited for in vain. The tables are "
        "where codes and numbers are kept right."
    ),
    remedy="Correct it, or add the code to the display's alarm list or the number to the spare parts.",
    example=Example(
        "conveyors/drive-trips.yaml",
        good="outcome: A loose clamp made the drive trip.",
        bad="outcome: A loose clamp made the drive trip with T-12.",
    ),
)


def check(said: Said, speech: Speech) -> Iterator[Diagnostic]:
    """Look up what has the shape of a code, in all prose of a file."""
    codes = speech.codes
    for text in lookup(said.prose).matching(codes.hint):
        seen = plain(text)
        for start, end in codes.unknown(seen):
            message = f"The tables know no alarm code and no part number “{seen[start:end]}”."
            near = did_you_mean(seen[start:end], codes.codes, RULE.remedy)
            yield Diagnostic(RULE, part_of(text, seen, start, end), message, near)
