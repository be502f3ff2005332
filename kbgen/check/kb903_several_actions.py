"""KB903: an instruction asks for more than one action."""

from __future__ import annotations

import re
from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.language.imperative import second_action
from kbgen.prose import plain

from .narrow import part_of
from .speech import Said, Speech

RULE = Rule(
    code="KB903",
    name="several-actions",
    severity=Severity.WARNING,
    summary="An instruction asks for more than one action.",
    rationale=(
        "A step is ticked off as a whole. Who is called away between two actions cannot tell from the page which of "
        "them was done. “Lock and tag” and “wait and see” are one handling and stay together."
    ),
    remedy="Give each action a step of its own, or leave out what goes without saying.",
    example=Example(
        "conveyors/drive-trips.yaml",
        good="do: Load the saved parameters into the spare drive.",
        bad="do: Load the saved parameters into the spare drive, then switch it off.",
    ),
)

_ITEM = re.compile(r"^[ \t]*(?:[-+*]|\d{1,9}[.)])[ \t]", re.MULTILINE)
_JOINTS = (", ", "; ", ". ", "! ", " then ", "\n")


def check(said: Said, speech: Speech) -> Iterator[Diagnostic]:
    """Look for a second action in each instruction."""
    verbs = speech.language.known_verbs
    for text in said.instructions:
        if "\n" in text and len(_ITEM.findall(text)) > 1:
            yield Diagnostic(RULE, text.at, "The instruction is a list; each entry is an action.", RULE.remedy)
        elif any(map(text.__contains__, _JOINTS)) or text.count(" and ") > 1:
            seen = plain(text)
            second = second_action(seen, verbs)
            if second:
                start, end = second
                message = f"The instruction goes on to another action: “{seen[start:end].strip(' ,;.!?')}”."
                yield Diagnostic(RULE, part_of(text, seen, start, end), message, RULE.remedy)
