"""Short ways to work a formula out in tests."""

from __future__ import annotations

from kbgen.formulas.compute import compute, work_out
from kbgen.formulas.evaluate import Table
from kbgen.formulas.registry import FORMULAS
from kbgen.model.values import parse_quantity


def worked(name: str, *numbers: float, table: Table = ()) -> float:
    """The result of a formula for its inputs in their order, all in its own units."""
    formula = FORMULAS[name]
    return work_out(formula, dict(zip((one.name for one in formula.inputs), numbers, strict=True)), table)


def computed(name: str, unit: str, *values: str, table: Table = ()) -> float:
    """The result of a formula in a unit, for its inputs in their order, written as quantities."""
    formula = FORMULAS[name]
    given = {one.name: parse_quantity(value) for one, value in zip(formula.inputs, values, strict=True)}
    return compute(formula, given, unit, table)
