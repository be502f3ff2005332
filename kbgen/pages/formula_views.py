"""What the list of formulas shows of each."""

from __future__ import annotations

from dataclasses import dataclass

from kbgen.formulas.formula import Formula, Input
from kbgen.formulas.registry import FORMULAS
from kbgen.formulas.writing import lines
from kbgen.pages.addresses import formula as address
from kbgen.pages.figures import PLAIN_NUMBER, figure

ANY = "any, of one kind"


@dataclass(frozen=True)
class InputView:
    """An input of a formula: its name in the file, what it is, its unit and range, and what to know of it."""

    name: str
    what: str
    unit: str
    range: str
    remark: str


@dataclass(frozen=True)
class FormulaView:
    """A formula in the list; ``lines`` is how a procedure asks for it."""

    anchor: str
    name: str
    title: str
    in_words: str
    inputs: tuple[InputView, ...]
    result: str
    classes: tuple[str, ...]
    requires: tuple[str, ...]
    table: str
    source: str
    not_for: tuple[str, ...]
    lines: str


def formula_views() -> tuple[FormulaView, ...]:
    """All formulas, in the order of their titles."""
    return tuple(_view(one) for one in sorted(FORMULAS.values(), key=lambda one: (one.title.lower(), one.name)))


def _view(formula: Formula) -> FormulaView:
    result = formula.result
    span = "" if result.classes else f", {_range(result.lowest, result.highest)}"
    return FormulaView(
        anchor=address(formula.name).partition("#")[2],
        name=formula.name,
        title=formula.title,
        in_words=formula.in_words,
        inputs=tuple(_input(one) for one in formula.inputs),
        result=f"{result.what}, {_result_unit(result.unit)}{span}",
        classes=tuple(map(str, result.classes)),
        requires=tuple(one.words for one in formula.requires),
        table=_table(formula),
        source=f"{formula.source.basis.value.capitalize()}: {formula.source}",
        not_for=formula.not_for,
        lines="\n".join(lines(formula)),
    )


def _input(one: Input) -> InputView:
    fixed = ("known beforehand: give its value",) if one.fixed else ()
    return InputView(
        name=one.name,
        what=one.what,
        unit=ANY if one.unit is None else _unit(one.unit),
        range="one of a list" if one.choices else _range(one.lowest, one.highest),
        remark="; ".join((*fixed, *map(str, one.choices))),
    )


def _table(formula: Formula) -> str:
    if formula.table is None:
        return ""
    return (
        f"{formula.table.what}: x in the unit of {formula.table.x_like}, y in that of {formula.table.y_like}, by "
        "rising x; between two rows in proportion, outside of them no result"
    )


def _result_unit(unit: str | None) -> str:
    if unit is None:
        return "in the unit of the values"
    return "a plain number (unit 1)" if unit == PLAIN_NUMBER else f"in {unit}"


def _unit(unit: str) -> str:
    return "1 (a plain number)" if unit == PLAIN_NUMBER else unit


def _range(lowest: float, highest: float) -> str:
    return f"{figure(lowest)} to {figure(highest)}"
