"""How a procedure writes a derived reading."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.formulas.formula import Formula, Input

_NEEDS_QUOTES = frozenset(",:{}[]#&*!|>'\"%@`")


def input_line(one: Input) -> str:
    """An input as an author writes it; what only the author knows stands in capitals."""
    value = ", value: NUMBER" if one.fixed else ""
    unit = "UNIT" if one.unit is None else _quoted(one.unit)
    return f"{{id: {one.name}, text: {_quoted(one.what)}, unit: {unit}{value}}}"


def lines(formula: Formula) -> Iterator[str]:
    """The keys of a derived reading."""
    yield f"formula: {formula.name}"
    yield "inputs:"
    for one in formula.inputs:
        yield f"  - {input_line(one)}"
    if formula.table:
        yield "table: [{x: NUMBER, y: NUMBER}, {x: NUMBER, y: NUMBER}]"


def _quoted(text: str) -> str:
    return f'"{text}"' if _NEEDS_QUOTES & set(text) else text
