"""KB109: prose holds what does not belong into a procedure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.values import Prose
from kbgen.prose import problems

RULE = Rule(
    code="KB109",
    name="unsafe-prose",
    severity=Severity.ERROR,
    summary="A text uses more than the small part of Markdown that procedures may use.",
    rationale=(
        "Texts may come from anyone and are read with no network. Emphasis, code, lists and links inside the knowledge "
        "base are enough for an instruction; HTML, pictures in the text, headings and links to other hosts are refused."
    ),
    remedy="Take the markup out. Link to other procedures as [text](procedure:ID); show pictures with the picture key.",
    example=Example(
        "conveyors/belt-slips.yaml",
        good="do: Wipe drum and belt dry.",
        bad="do: Wipe drum and belt <b>dry</b>.",
    ),
)


def check(prose: Iterable[Prose]) -> Iterator[Diagnostic]:
    """Report each piece of markup that is not allowed, in the prose of one file."""
    for text in prose:
        for problem in problems(text):
            yield Diagnostic(RULE, text.at, f"The text holds {problem.what}.", problem.remedy)
