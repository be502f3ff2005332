"""KB703: the source of a limit cannot be looked up."""

from __future__ import annotations

import re
from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.steps import LimitSource
from kbgen.model.words import SourceKind

from .case import Case, TablesCase
from .readings import readings

RULE = Rule(
    code="KB703",
    name="vague-source",
    severity=Severity.WARNING,
    summary="The source of a limit names no document that could be looked up, and nobody who stands for it.",
    rationale=(
        "A limit decides what is taken apart and what is left alone. When it is doubted at the machine, or the "
        "standard is revised, somebody must be able to find where it came from."
    ),
    remedy=(
        "Name the document with its number or edition and the clause or table. For common practice or judgement, say "
        "whose it is."
    ),
    example=Example(
        "conveyors/drive-trips.yaml",
        good="NEMA MG 1, clause 14.36 (unbalance of voltages); quoted from memory",
        bad="See the standard",
    ),
)

# Words that a reference may have without naming anything.
_NAMES_NOTHING = {
    "a", "an", "and", "as", "available", "book", "by", "common", "data", "datasheet", "document", "documentation",
    "experience", "for", "from", "general", "good", "guide", "guideline", "guidelines", "handbook", "handbooks",
    "in", "instruction", "instructions", "internet", "judgement", "judgment", "knowledge", "literature", "maker",
    "makers", "manual", "manuals", "manufacturer", "manufacturers", "memory", "n", "na", "nil", "none", "norm",
    "norms", "not", "of", "on", "or", "our", "own", "per", "practice", "rule", "see", "sheet", "standard",
    "standards", "table", "tba", "tbd", "the", "thumb", "to", "todo", "unknown", "usual", "web", "with",
}  # fmt: skip
_DOCUMENTS = (SourceKind.STANDARD, SourceKind.HANDBOOK)
_FEWEST_WORDS = 3


def check(case: Case) -> Iterator[Diagnostic]:
    """Report the vague sources of the readings of a procedure."""
    for step in readings(case.procedure.steps):
        yield from _vague(step.source)


def check_tables(case: TablesCase) -> Iterator[Diagnostic]:
    """Report those of the shared sequences and of the data of stored energy."""
    for sequence in case.shared.sequences.values():
        for step in readings(sequence.steps):
            yield from _vague(step.source)
    for source in case.shared.energy.values():
        if source.stored and source.stored.source:
            yield from _vague(source.stored.source)


def _vague(source: LimitSource) -> Iterator[Diagnostic]:
    if any(letter.isdigit() for letter in source.reference):
        return
    words = re.findall(r"[^\W_]+", re.sub(r"[’']s?\b|/", "", source.reference.casefold()))
    if set(words) <= _NAMES_NOTHING:
        message = f"“{source.reference}” names nothing that could be looked up when the limit is doubted."
        yield Diagnostic(RULE, source.reference.at, message, RULE.remedy)
    elif source.kind in _DOCUMENTS and len(words) < _FEWEST_WORDS:
        message = (
            f"“{source.reference}” does not say which edition, clause or table of the {source.kind.value} sets the "
            "limit, so that nobody can look it up when it is doubted."
        )
        yield Diagnostic(RULE, source.reference.at, message, RULE.remedy)
