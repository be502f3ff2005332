"""Every formula is whole: it can be read, says what it is, and is found by its name."""

from __future__ import annotations

import json
import re
import subprocess
import sys

import pytest

from kbgen.formulas import electrical, mechanical, sensors, thermal
from kbgen.formulas.evaluate import names_in
from kbgen.formulas.formula import Formula, variable
from kbgen.formulas.portable import portable
from kbgen.formulas.registry import FORMULAS
from kbgen.model.values import ID_PATTERN
from kbgen.units import unit

EVERY = pytest.mark.parametrize("formula", FORMULAS.values(), ids=FORMULAS)


def test_names_are_unique_and_in_order() -> None:
    listed = [one.name for module in (electrical, mechanical, sensors, thermal) for one in module.FORMULAS]
    assert list(FORMULAS) == sorted(listed) == sorted(set(listed))


@EVERY
def test_a_formula_uses_each_of_its_inputs_and_nothing_else(formula: Formula) -> None:
    used = set(names_in(formula.tree))
    assert set(formula.variables) <= used
    assert {name for tree in formula.conditions for name in names_in(tree)} <= set(formula.variables)
    assert len(set(formula.variables)) == len(formula.inputs)
    assert ("interpolate" in json.dumps(formula.tree)) == bool(formula.table)


@EVERY
def test_names_can_be_written_in_a_procedure(formula: Formula) -> None:
    for name in (formula.name, *(one.name for one in formula.inputs)):
        assert re.fullmatch(ID_PATTERN, name)


@EVERY
def test_units_are_known_and_ranges_are_ranges(formula: Formula) -> None:
    for one in (*formula.inputs, formula.result):
        assert one.unit is None or unit(one.unit)
        assert one.lowest < one.highest
    if formula.result.unit is None:
        assert any(formula.of_free_unit())


@EVERY
def test_choices_and_classes_lie_in_their_range(formula: Formula) -> None:
    for one in formula.inputs:
        assert all(one.lowest <= choice.number <= one.highest for choice in one.choices)
        assert not one.choices or one.fixed
    if formula.result.classes:
        numbers = [one.number for one in formula.result.classes]
        assert numbers == list(range(1, len(numbers) + 1))
        assert (formula.result.lowest, formula.result.highest) == (1, len(numbers))


@EVERY
def test_a_formula_says_what_it_is_and_where_it_ends(formula: Formula) -> None:
    assert formula.title and formula.in_words and formula.source.reference and formula.result.what
    assert formula.not_for
    for sentence in formula.not_for:
        assert sentence[0].isupper() and sentence.endswith(".")


def test_what_is_from_memory_says_so() -> None:
    source = FORMULAS["insulation-at-40-thermoplastic"].source
    assert str(source).endswith("(from memory: compare it with the document)")


@EVERY
def test_a_formula_as_data_survives_json(formula: Formula) -> None:
    data = portable(formula)
    assert json.loads(json.dumps(data, allow_nan=False)) == data
    assert [one["variable"] for one in data["inputs"]] == list(formula.variables)  # type: ignore[attr-defined]


def test_a_hyphen_becomes_an_underscore() -> None:
    assert variable("after-10-min") == "after_10_min"


def test_the_list_is_cheap_to_import_and_reads_no_expression_before_it_is_asked_for() -> None:
    script = (
        "import sys; from kbgen.formulas.registry import FORMULAS; import kbgen.formulas.compute; "
        "print(sorted({'pint', 'yaml', 'numpy', 'mkdocs'} & set(sys.modules)), "
        "[name for name, one in FORMULAS.items() if 'tree' in vars(one)])"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[] []"
