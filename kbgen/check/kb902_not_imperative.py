"""KB902: an instruction does not say what to do."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.language.imperative import first_word, imperative_start
from kbgen.language.verbs import base_form
from kbgen.model.values import Text
from kbgen.prose import plain

from .speech import Said, Speech

RULE = Rule(
    code="KB902",
    name="not-imperative",
    severity=Severity.WARNING,
    summary="An instruction does not begin with a verb in the imperative.",
    rationale=(
        "“The valve is closed” can be read as a state that is already there. “Close the valve” cannot. An adverb or a "
        "short clause with a comma may stand before the verb: “If it hisses, close the valve.”"
    ),
    remedy=(
        "Begin with the verb of the action. If it is one that is only not known here, add it in mkdocs.yml: plugins, "
        "kbgen, language, verbs."
    ),
    example=Example(
        "conveyors/drive-trips.yaml",
        good="do: Save all parameters of the drive on its panel.",
        bad="do: All parameters of the drive are saved on its panel.",
    ),
)

_TAKEN_FROM_TABLES = ".prove}"


def check(said: Said, speech: Speech) -> Iterator[Diagnostic]:
    """Look for the verb of each instruction."""
    verbs = speech.language.known_verbs
    for text in said.instructions:
        if text.partition(" ")[0].lower() in verbs or not text:
            continue
        seen = plain(text)
        if imperative_start(seen, verbs) is None and not seen.partition(" ")[0].endswith(_TAKEN_FROM_TABLES):
            yield _finding(text, first_word(seen), verbs)


def _finding(text: Text, word: str, verbs: frozenset[str]) -> Diagnostic:
    base = base_form(word, verbs)
    begins = word or text.partition(" ")[0]
    message = f"The instruction begins with “{begins}” and not with a verb that tells what to do."
    return Diagnostic(RULE, text.at, message, f"Write “{base}” in place of “{word}”." if base else RULE.remedy)
