"""KB904: a hazard is spoken of beside its action, where it is read too late."""

from __future__ import annotations

import re
from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.language.lookup import lookup_lowered, tokens
from kbgen.prose import plain

from .narrow import part_of
from .speech import Said, Speech

RULE = Rule(
    code="KB904",
    name="late-hazard",
    severity=Severity.WARNING,
    summary="A warning stands in the words of a step and not among its hazards.",
    rationale=(
        "A safety message stands before the action it belongs to, with its signal word, the consequence and how to "
        "avoid it (ANSI Z535.6, from memory). The hazards of a step are shown so; a warning in an instruction or a "
        "note is read when the hand is already on its way."
    ),
    remedy="Put it into the tables as a hazard, and name it under hazards at the step or its group.",
    example=Example(
        "conveyors/drive-trips.yaml",
        good="do: Tighten every clamp with the torque on the drive's plate.",
        bad='do: "Tighten every clamp. Caution: sharp edges."',
    ),
)

_SPOKEN = frozenset(tokens("danger warning caution notice attention beware watch careful"))
_LABEL = r"(?:danger|warning|caution|notice|attention)"
_WARNING = re.compile(
    rf"\b{_LABEL}\s*(?::|!)|(?<![\w“\"]){_LABEL.upper()}\s+[–—-]\s|(?:^|[.!?]\s+){_LABEL}[.,]\s"
    r"|\bbeware\b|\bwatch out\b|\bbe (?:very )?careful\b|(?:^|[.!?:]\s+)careful\b",
    re.IGNORECASE,
)


def check(said: Said, speech: Speech) -> Iterator[Diagnostic]:
    """Look for signal words used as labels, and for calls to beware."""
    if said.words.isdisjoint(_SPOKEN):
        return
    for text in lookup_lowered(said.texts).containing(map(bytes.decode, _SPOKEN & said.words)):
        seen = plain(text)
        found = _WARNING.search(seen)
        if found:
            word = found[0].strip(" .!?:–—-")
            message = f"“{word}” warns of a hazard in the words of the step, where it comes too late."
            yield Diagnostic(RULE, part_of(text, seen, *found.span()), message, RULE.remedy)
