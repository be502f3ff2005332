"""Work a formula out: first in its own units, then for values and a result in the units of the author."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise
from typing import Protocol

from kbgen.formulas.errors import Conflict, FormulaError, NoChoice, OutOfRange, UnfitUnit
from kbgen.formulas.evaluate import Table, evaluate, holds
from kbgen.formulas.formula import TABLE, Formula, Input, variable
from kbgen.units import Unit, convert, same_dimension, unit

RESULT = "result"

# A result may exceed its range by this share of it: that much can come from rounding alone.
_SLACK = 1e-9


class Measured(Protocol):
    """A number with its unit."""

    @property
    def number(self) -> float:
        """The number."""

    @property
    def unit(self) -> str:
        """The unit as it was written."""


def fits(own: str, given: str) -> bool:
    """Tell whether numbers of a unit can stand for those of the formula's own unit.

    A difference of temperatures, which a formula gives in K, has no zero point: °C and °F do not fit it.
    """
    ours, theirs = unit(own), unit(given)
    if ours is None or theirs is None or not same_dimension(ours, theirs):
        return False
    return bool(ours.offset) or not theirs.offset


def own_units(formula: Formula, given: Mapping[str, str], result_unit: str) -> Mapping[str, str]:
    """The units in which the inputs and the result are worked out, by name; ``given`` has those of the inputs.

    Where any unit will do, it is that of the result, or else that of the first such input that is given.
    """
    free = result_unit
    if formula.result.unit is not None:
        free = next((given[one.name] for one in formula.of_free_unit() if one.name in given), "")
    inputs = {one.name: free if one.unit is None else one.unit for one in formula.inputs}
    return {**inputs, RESULT: free if formula.result.unit is None else formula.result.unit}


def rises(table: Table) -> bool:
    """Tell whether a table has two rows or more, by rising x."""
    return len(table) > 1 and all(before[0] < after[0] for before, after in pairwise(table))


def work_out(formula: Formula, numbers: Mapping[str, float], table: Table = ()) -> float:
    """Work a formula out in its own units; ``numbers`` has one for each input by name.

    Raises OutOfRange for an input, a table or a result outside its range, NoChoice for a number that stands for
    nothing, Conflict for inputs or a table that contradict themselves, Undefined for a division by zero and the like,
    and FormulaError where values are missing or are too many.
    """
    _check_given(formula, numbers, table)
    for one in formula.inputs:
        check_input(one, numbers[one.name])
    names = {variable(name): float(number) for name, number in numbers.items()}
    for requirement, condition in zip(formula.requires, formula.conditions, strict=True):
        if not holds(condition, names):
            raise Conflict(f"it must hold that {requirement.words}")
    result = evaluate(formula.tree, names, {TABLE: table})
    _check_result(formula, result)
    return result


def check_input(one: Input, number: float) -> None:
    """Raise OutOfRange or NoChoice if a number in the formula's own unit is none that the input may be."""
    if not one.lowest <= number <= one.highest:
        raise OutOfRange(one.name, number, one.lowest, one.highest, one.unit or "")
    if one.choices and number not in {choice.number for choice in one.choices}:
        allowed = "; ".join(map(str, one.choices))
        raise NoChoice(f"“{one.name}” is {number:g}; allowed are {allowed}")


def check_value(one: Input, value: Measured, own: str) -> float:
    """Return a value in the unit in which it is worked out; raise OutOfRange, NoChoice or UnfitUnit in its own unit."""
    pair = _pair(one.name, value.unit, own)
    number = convert(value.number, *pair)
    try:
        check_input(one, number)
    except OutOfRange as error:
        raise _as_given(error, {one.name: pair}) from None
    return number


def _check_result(formula: Formula, result: float) -> None:
    slack = _SLACK * (formula.result.highest - formula.result.lowest)
    if not formula.result.lowest - slack <= result <= formula.result.highest + slack:
        raise OutOfRange(RESULT, result, formula.result.lowest, formula.result.highest, formula.result.unit or "")


def compute(formula: Formula, values: Mapping[str, Measured], result_unit: str, table: Table = ()) -> float:
    """Work a formula out for values in any fitting units; the result is in ``result_unit``.

    The columns of the table have the units of the inputs that ``formula.table`` names. Raises what ``work_out``
    raises, with limits in the units that were given, and UnfitUnit.
    """
    _check_given(formula, values, table)
    units = dict(_units(formula, values, result_unit))
    numbers = {name: convert(value.number, *units[name]) for name, value in values.items()}
    try:
        result = work_out(formula, numbers, _converted(formula, table, units))
    except OutOfRange as error:
        raise _as_given(error, units) from None
    given, own = units[RESULT]
    return convert(result, own, given)


def _check_given(formula: Formula, values: Mapping[str, object], table: Table) -> None:
    wanted = {one.name for one in formula.inputs}
    if values.keys() != wanted:
        raise FormulaError(f"{formula.name} takes {', '.join(sorted(wanted))}; given are {', '.join(sorted(values))}")
    if bool(table) != bool(formula.table):
        raise Conflict("a table is missing" if formula.table else f"{formula.name} takes no table")
    if table and not rises(table):
        raise Conflict("a table has two rows or more, by rising x")


def _units(
    formula: Formula, values: Mapping[str, Measured], result_unit: str
) -> Iterator[tuple[str, tuple[Unit, Unit]]]:
    """For each input, the table and the result by name: the unit that was given, and that of the working."""
    given = {name: value.unit for name, value in values.items()}
    own = own_units(formula, given, result_unit)
    for name, its_unit in own.items():
        yield name, _pair(name, result_unit if name == RESULT else given[name], its_unit)
    if formula.table:
        yield TABLE, _pair(TABLE, given[formula.table.x_like], own[formula.table.x_like])


def _pair(name: str, given: str, own: str) -> tuple[Unit, Unit]:
    theirs, ours = unit(given), unit(own)
    if theirs is None or ours is None or not fits(own, given):
        raise UnfitUnit(f"“{name}” is in {given or 'no unit'}, which cannot be turned into {own or 'a plain number'}")
    return theirs, ours


def _converted(formula: Formula, table: Table, units: Mapping[str, tuple[Unit, Unit]]) -> Table:
    if formula.table is None or not table:
        return table
    x_units, y_units = units[formula.table.x_like], units[formula.table.y_like]
    return [(convert(x, *x_units), convert(y, *y_units)) for x, y in table]


def _as_given(error: OutOfRange, units: Mapping[str, tuple[Unit, Unit]]) -> OutOfRange:
    given, own = units[error.name]
    number, lowest, highest = (convert(one, own, given) for one in (error.number, error.lowest, error.highest))
    return OutOfRange(error.name, number, lowest, highest, given.symbol)
