"""KB906: a step uses another word where the glossary has a term."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.language.lookup import lookup_lowered
from kbgen.prose import plain

from .narrow import part_of
from .speech import Said, Speech

RULE = Rule(
    code="KB906",
    name="other-word",
    severity=Severity.WARNING,
    summary="A step uses a word that the glossary lists only as another word for a term.",
    rationale=(
        "Two words are taken for two things: who reads “head roller” here and “drive drum” there looks for both. Other "
        "words are for the search, where anyone may use his own."
    ),
    remedy=(
        "Write the term. A word that is as good goes from the glossary's also into the table of synonyms: there it is "
        "found by the search and asked of nobody."
    ),
    example=Example(
        "conveyors/belt-slips.yaml",
        good="do: Wipe drum and belt dry.",
        bad="do: Wipe head roller and belt dry.",
    ),
)


def check(said: Said, speech: Speech) -> Iterator[Diagnostic]:
    """Look for other words in everything that the steps say."""
    terms = speech.terms
    present = terms.among(said.words)
    if not present:
        return
    for text in lookup_lowered(said.texts).containing(present):
        seen = plain(text)
        for found in terms.find(seen):
            wanted = " or ".join(f"“{term}”" for term in found.terms)
            message = f"The glossary calls “{found.word}” {wanted}."
            yield Diagnostic(RULE, part_of(text, seen, found.start, found.end), message, RULE.remedy)
