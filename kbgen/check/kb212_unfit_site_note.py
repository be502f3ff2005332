"""KB212: a site note is about something that does not exist."""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.shared import Shared

from .case import Overview

RULE = Rule(
    code="KB212",
    name="unfit-site-note",
    severity=Severity.ERROR,
    summary="A site note is about a procedure, a step or a table entry that does not exist.",
    rationale="A note such as “Q1 is behind the ice machine” that is attached to nothing is shown to nobody.",
    remedy="Write about as procedure:ID, procedure:ID#step, point:ID, energy:ID, tool:ID, part:ID or contact:ID.",
    example=Example("tables/conveyors.yaml", good='about: "point:q1"', bad='about: "point:q7"'),
)


def check(overview: Overview) -> Iterator[Diagnostic]:
    """Look up what each site note is about."""
    tables = _tables(overview.shared)
    for notes in overview.shared.site_notes.values():
        for note in notes:
            kind, _, name = note.about.partition(":")
            is_there = _is_in_procedures(name, overview) if kind == "procedure" else name in tables.get(kind, ())
            if not is_there:
                yield Diagnostic(RULE, note.about.at, f"There is nothing that “{note.about}” could mean.", RULE.remedy)


def _is_in_procedures(name: str, overview: Overview) -> bool:
    procedure, mark, step = name.partition("#")
    digest = overview.by_id.get(procedure)
    return digest is not None and (not mark or step in digest.anchors)


def _tables(shared: Shared) -> Mapping[str, Container[str]]:
    return {
        "point": shared.points,
        "energy": shared.energy,
        "tool": shared.tools,
        "part": shared.parts,
        "contact": shared.contacts,
    }
