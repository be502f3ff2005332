"""KB202: two things bear the same name."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from kbgen.diagnostics import Diagnostic, Example, Label, Rule, Severity
from kbgen.model.scopes import Mention
from kbgen.model.values import Text

RULE = Rule(
    code="KB202",
    name="name-given-twice",
    severity=Severity.ERROR,
    summary="Two things of the same kind bear the same permanent name.",
    rationale="A reference would lead to one of them by chance: to another step, or to another isolation point.",
    remedy="Give one of them a name of its own. Keep the name that was published first.",
    example=Example("tables/conveyors.yaml", good="  - id: flashlight\n", bad="  - id: voltage-tester\n"),
)


def check(files: Iterable[Iterable[Mention]]) -> Iterator[Diagnostic]:
    """Report names that are given twice in the same record, or twice in the knowledge base."""
    first: dict[tuple[object, ...], Text] = {}
    for number, names in enumerate(files):
        for name in names:
            key = (name.kind, name.text, name.owner, number if name.owner else None)
            earlier = first.setdefault(key, name.text)
            if earlier is not name.text and name.text:
                message = f"The {name.kind.value} “{name.text}” is there already."
                yield Diagnostic(
                    RULE, name.text.at, message, RULE.remedy, (Label(earlier.at, "it was named first here"),)
                )
