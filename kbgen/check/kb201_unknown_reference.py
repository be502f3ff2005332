"""KB201: a name stands for nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Set

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.scopes import Mention
from kbgen.model.shared import Shared
from kbgen.model.steps import NEXT
from kbgen.model.values import Kind, Text

from .near import did_you_mean

RULE = Rule(
    code="KB201",
    name="unknown-reference",
    severity=Severity.ERROR,
    summary="A name is used that nothing in the knowledge base bears.",
    rationale=(
        "A step that leads nowhere leaves the technician standing at an open machine; a tool, a part or a hazard that "
        "is not in the tables cannot be shown."
    ),
    remedy="Correct the spelling, or add what is named to the shared tables.",
    example=Example(
        "conveyors/belt-slips.yaml", good="not-available: {go: tighten}", bad="not-available: {go: tigthen}"
    ),
)

# These are looked up in the record that they belong to, by the checks of that record.
ELSEWHERE = frozenset({Kind.PROCEDURE, Kind.VARIANT, Kind.STAGE, Kind.ENDING})

_Local = Mapping[tuple[Kind, int], Set[str]]


def check(names: Iterable[Mention], refs: Iterable[Mention], shared: Shared) -> Iterator[Diagnostic]:
    """Report the references of one file that name nothing, neither in their own record nor in the tables."""
    local: dict[tuple[Kind, int], set[str]] = {}
    for name in names:
        if name.owner:
            local.setdefault((name.kind, name.owner), set()).add(name.text)
    for ref in refs:
        if not _is_known(ref, local, shared):
            yield unknown(ref.kind.value, ref.text, _candidates(ref, local, shared))


def _is_known(ref: Mention, local: _Local, shared: Shared) -> bool:
    if ref.kind in ELSEWHERE or not ref.text or (ref.kind is Kind.STEP and ref.text == NEXT):
        return True
    return ref.text in shared.names[ref.kind] or ref.text in local.get((ref.kind, ref.owner), ())


def _candidates(ref: Mention, local: _Local, shared: Shared) -> set[str]:
    return {*shared.names[ref.kind], *local.get((ref.kind, ref.owner), ())}


def unknown(what: str, name: Text, known: Iterable[str]) -> Diagnostic:
    """The finding for a name that nothing bears."""
    otherwise = f"Add the {what} to the shared tables, or correct the name."
    if what == Kind.STEP.value:
        otherwise = "Name a step of this procedure, or write next."
    return Diagnostic(RULE, name.at, f"There is no {what} named “{name}”.", did_you_mean(name, known, otherwise))
