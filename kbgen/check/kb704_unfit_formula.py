"""KB704: a derived reading cannot be worked out as it is written."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.formulas.compute import RESULT, check_value, fits, own_units
from kbgen.formulas.errors import FormulaError
from kbgen.formulas.evaluate import holds, names_in
from kbgen.formulas.formula import Formula, Input, variable
from kbgen.formulas.registry import FORMULAS
from kbgen.formulas.writing import input_line
from kbgen.model.steps import Read, ReadingInput
from kbgen.model.values import Quantity, Text
from kbgen.place import Span
from kbgen.units import unit

from .case import Case, TablesCase
from .near import did_you_mean
from .readings import readings

RULE = Rule(
    code="KB704",
    name="unfit-formula",
    severity=Severity.ERROR,
    summary="A derived reading names an unknown formula, or gives it other values, units or tables than it takes.",
    rationale=(
        "A value that is worked out wrongly looks like any other value. It is compared with a limit, and somebody "
        "replaces a sound motor or puts a bad one back."
    ),
    remedy=(
        "Take name, inputs and units from the list of formulas on the page for authors. Give every input under its "
        "name, a value with those that are known beforehand, and a table only where the formula looks one up."
    ),
    example=Example("conveyors/drive-trips.yaml", good="formula: voltage-unbalance", bad="formula: voltage-imbalance"),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Report the derived readings of a procedure that cannot be worked out."""
    for step in readings(case.procedure.steps):
        yield from _of_reading(step)


def check_tables(case: TablesCase) -> Iterator[Diagnostic]:
    """Report the same for the shared sequences."""
    for sequence in case.shared.sequences.values():
        for step in readings(sequence.steps):
            yield from _of_reading(step)


def _of_reading(step: Read) -> Iterator[Diagnostic]:
    if step.formula is None:
        if step.inputs or step.table:
            what, at = ("inputs", step.inputs[0].id.at) if step.inputs else ("a table", step.table[0].at)
            message = f"Step “{step.id}” has {what}, but no formula that would take {'them' if step.inputs else 'it'}."
            yield Diagnostic(RULE, at, message, "Name the formula with the key formula, or take them away.")
        return
    formula = FORMULAS.get(step.formula)
    if formula is None:
        message = f"There is no formula named “{step.formula}”."
        yield Diagnostic(RULE, step.formula.at, message, did_you_mean(step.formula, FORMULAS, RULE.remedy))
        return
    yield from _names(step, formula, step.formula)
    yield from _units(step, formula)
    yield from _values(step, formula)
    yield from _table(step, formula, step.formula)


def _names(step: Read, formula: Formula, named: Text) -> Iterator[Diagnostic]:
    wanted = {one.name: one for one in formula.inputs}
    given = {str(one.id) for one in step.inputs}
    for one in step.inputs:
        if one.id not in wanted:
            message = f"The formula “{formula.name}” takes no value named “{one.id}”."
            left = [name for name in wanted if name not in given]
            names = ", ".join(wanted)
            yield Diagnostic(RULE, one.id.at, message, did_you_mean(one.id, left, f"It takes {names}."))
    for name, wanted_one in wanted.items():
        if name not in given:
            message = f"Step “{step.id}” gives the formula “{formula.name}” no value for “{name}” ({wanted_one.what})."
            yield Diagnostic(RULE, named.at, message, f"Add “{input_line(wanted_one)}” under inputs.")


def _units(step: Read, formula: Formula) -> Iterator[Diagnostic]:
    """Report units of another dimension; unknown ones are reported as such (KB701)."""
    own = own_units(formula, {str(one.id): one.unit for one in step.inputs}, step.unit)
    for one in step.inputs:
        if one.id in own and _is_misfit(own[one.id], one.unit):
            yield _misfit(one.unit.at, f"The value “{one.id}” of “{formula.name}”", one.unit, own[one.id])
    if _is_misfit(own[RESULT], step.unit):
        yield _misfit(step.unit.at, f"The result of “{formula.name}”", step.unit, own[RESULT])


def _is_misfit(own: str, given: str) -> bool:
    return unit(own) is not None and unit(given) is not None and not fits(own, given)


def _misfit(at: Span, what: str, given: str, own: str) -> Diagnostic:
    kind = "a plain number" if own in ("", "1") else f"in {own}"
    remedy = f"Write {own or '1'}, or another unit that measures the same."
    if own == "K":
        remedy += " A difference of temperatures is in K: a scale such as °C has a zero point."
    return Diagnostic(RULE, at, f"{what} is {kind}, and cannot be turned into {given}.", remedy)


def _values(step: Read, formula: Formula) -> Iterator[Diagnostic]:
    own = own_units(formula, {str(one.id): one.unit for one in step.inputs}, step.unit)
    wanted = {one.name: one for one in formula.inputs}
    known: dict[str, float] = {}
    for one in step.inputs:
        its = wanted.get(str(one.id))
        if its and one.value is None and its.fixed:
            message = f"“{one.id}” of “{formula.name}” is known beforehand ({its.what}), but has no value."
            yield Diagnostic(RULE, one.id.at, message, _value_help(its))
        if its is None or one.value is None or not (one.value.unit or fits(own[its.name], one.unit)):
            continue
        try:
            known[variable(its.name)] = check_value(its, _with_unit(one, one.value), own[its.name])
        except FormulaError as error:
            yield Diagnostic(RULE, one.id.at, f"The value of “{one.id}” does not fit: {error}.", _value_help(its))
    yield from _conflicts(step, formula, known)


def _with_unit(one: ReadingInput, value: Quantity) -> Quantity:
    """A value without a unit has that of its input."""
    return value if value.unit else Quantity(value.number, str(one.unit), value.written)


def _value_help(one: Input) -> str:
    if one.choices:
        return f"Write “value:” with one of these: {'; '.join(map(str, one.choices))}."
    behind = f" {one.unit}" if one.unit not in (None, "1") else ""
    return f"Write “value:” with a number from {one.lowest:g} to {one.highest:g}{behind}."


def _conflicts(step: Read, formula: Formula, known: Mapping[str, float]) -> Iterator[Diagnostic]:
    """Report values that contradict each other, as far as they are known."""
    for requirement, condition in zip(formula.requires, formula.conditions, strict=True):
        if known.keys() >= set(names_in(condition)) and not holds(condition, known):
            message = f"The values of step “{step.id}” contradict each other: it must hold that {requirement.words}."
            yield Diagnostic(RULE, step.inputs[0].id.at, message, "Correct the values.")


def _table(step: Read, formula: Formula, named: Text) -> Iterator[Diagnostic]:
    if formula.table is None:
        if step.table:
            message = f"The formula “{formula.name}” looks nothing up, but step “{step.id}” gives it a table."
            yield Diagnostic(RULE, step.table[0].at, message, "Take the table away.")
        return
    if not step.table:
        message = f"Step “{step.id}” gives the formula “{formula.name}” no table: {formula.table.what}."
        yield Diagnostic(RULE, named.at, message, "Add “table: [{x: NUMBER, y: NUMBER}, ...]” by rising x.")
    elif len(step.table) == 1:
        message = f"The table of step “{step.id}” has one row; between two there would be something to look up."
        yield Diagnostic(RULE, step.table[0].at, message, "Add rows until the table covers all readings.")
    for before, row in pairwise(step.table):
        if row.x <= before.x:
            message = f"The table of step “{step.id}” does not rise: {row.x:g} comes after {before.x:g}."
            yield Diagnostic(RULE, row.at, message, "Sort the rows by rising x, each x once.")
