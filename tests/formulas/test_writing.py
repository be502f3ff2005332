"""What the list of formulas proposes to write is a reading that passes the check."""

from __future__ import annotations

from pathlib import Path

import pytest

from kbgen.formulas.formula import Formula
from kbgen.formulas.registry import FORMULAS
from kbgen.formulas.writing import lines
from tests.check.test_unfit_formula import derived

FIXED = {
    "at-4-ma": 0, "at-20-ma": 16, "bore": 50, "rod": 20, "nut-factor": 0.2, "diameter": 12, "end-voltage": 50,
    "resistance": 1000, "capacitance": 1000,
}  # fmt: skip


def _filled(formula: Formula) -> str:
    text = "".join(f"        {line}\n" for line in lines(formula))
    for one in formula.inputs:
        if one.fixed:
            number = one.choices[0].number if one.choices else FIXED[one.name]
            text = text.replace("value: NUMBER", f"value: {number:g}", 1)
    for row in ("x: 1, y: 2", "x: 3, y: 4"):
        text = text.replace("x: NUMBER, y: NUMBER", row, 1)
    return text.replace("UNIT", "bar")


@pytest.mark.parametrize("formula", FORMULAS.values(), ids=FORMULAS)
def test_the_proposed_lines_pass_once_they_are_filled_in(formula: Formula, tmp_path: Path) -> None:
    assert derived(tmp_path, formula.result.unit or "bar", _filled(formula)) == []
