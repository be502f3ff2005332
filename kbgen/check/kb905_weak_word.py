"""KB905: an instruction leaves open whether it must be carried out."""

from __future__ import annotations

import re
from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.language.lookup import lookup_lowered, tokens
from kbgen.prose import plain

from .narrow import part_of
from .speech import Said, Speech

RULE = Rule(
    code="KB905",
    name="weak-word",
    severity=Severity.WARNING,
    summary="An instruction has a word that leaves open what must be done, or whether.",
    rationale=(
        "At the machine “should”, “please” and “if possible” are read as leave to skip the step, and “as required” or "
        "“etc.” as leave to decide what it is. Where there is a choice, it is a question with answers."
    ),
    remedy="Say what is to be done without the word. Where it depends on something, ask for that in a step before.",
    example=Example(
        "conveyors/drive-trips.yaml",
        good="change: Set the trip delay to 5 s.",
        bad="change: Please set the trip delay to 5 s.",
    ),
)

_OPTIONAL = "it leaves open whether the step must be done"
_UNSAID = "it leaves open what has to be done"
_TRY_TO = "try to"
_REASONS = {
    "should": "it leaves open whether that must be so",
    "please": _OPTIONAL,
    _TRY_TO: "it is done, too, when the attempt fails",
    "if possible": _OPTIONAL,
    "where possible": _OPTIONAL,
    "if necessary": "it leaves open when it is necessary",
    "if required": "it leaves open when it is required",
    "if needed": "it leaves open when it is needed",
    "as required": _UNSAID,
    "as necessary": _UNSAID,
    "as needed": _UNSAID,
    "as appropriate": _UNSAID,
    "etc": "it leaves open what else belongs to it",
    "and so on": "it leaves open what else belongs to it",
}
_PARTS = [frozenset(tokens(one)) for one in _REASONS]
# “As required by the plate” says who requires what.
_WORDS = "|".join(re.escape(one) + ("(?! (?:by|in|on) )" if one.startswith("as ") else "") for one in sorted(_REASONS))
# “Try to start” is how the absence of energy is shown, and so an action of its own.
_TEST = rf"{_TRY_TO} (?:start|restart|run|move|turn)\b"
_WEAK = re.compile(rf"\b(?!{_TEST})(?:{_WORDS})\b", re.IGNORECASE)


def check(said: Said, speech: Speech) -> Iterator[Diagnostic]:
    """Look for weak words in instructions."""
    if not any(parts <= said.words for parts in _PARTS):
        return
    for text in lookup_lowered(said.instructions).containing(_REASONS):
        seen = plain(text)
        for found in _WEAK.finditer(seen):
            message = f"“{found[0]}” has no place in an instruction: {_REASONS[found[0].lower()]}."
            yield Diagnostic(RULE, part_of(text, seen, *found.span()), message, RULE.remedy)
