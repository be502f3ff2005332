"""Values, units and limits around a formula: what does not fit is an error with a name, never a number."""

from __future__ import annotations

import pickle

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbgen.formulas.compute import compute, fits, work_out
from kbgen.formulas.errors import FormulaError, OutOfRange, UnfitUnit
from kbgen.formulas.registry import FORMULAS
from kbgen.model.values import parse_quantity
from tests.formulas.working import computed, worked

EVERY_INPUT = [(formula, one) for formula in FORMULAS.values() for one in formula.inputs]


@pytest.mark.parametrize(("formula", "one"), EVERY_INPUT, ids=lambda one: one.name)
@pytest.mark.parametrize("side", [-1, 1])
def test_every_input_has_a_range_and_says_so(formula, one, side) -> None:
    numbers = {other.name: other.lowest for other in formula.inputs}
    beyond = one.lowest - 1 if side < 0 else one.highest * 2 + 1
    table = [(one.lowest, 0.0), (one.highest, 1.0)] if formula.table else []
    with pytest.raises(OutOfRange) as caught:
        work_out(formula, {**numbers, one.name: beyond}, table)
    assert (caught.value.name, caught.value.number) == (one.name, beyond)
    assert f"“{one.name}” is {beyond:.7g}" in str(caught.value)
    assert f"allowed is {one.lowest:.7g} to {one.highest:.7g}" in str(caught.value)


@pytest.mark.parametrize("number", [float("nan"), float("inf"), float("-inf")])
def test_what_is_no_number_is_out_of_range(number: float) -> None:
    with pytest.raises(OutOfRange):
        worked("belt-deflection", number)


def test_limits_are_told_in_the_unit_of_the_author() -> None:
    with pytest.raises(OutOfRange, match="“temperature” is 200 °F; allowed is 32 to 185 °F"):
        computed("insulation-at-40-thermoplastic", "MΩ", "10 MΩ", "200 °F")
    with pytest.raises(OutOfRange, match="“current” is 0.0037 A; allowed is 0.0038 to 0.0205 A"):
        computed("loop-value", "bar", "0.0037 A", "0 bar", "10 bar")
    with pytest.raises(OutOfRange, match="“result” is 0.0214.* A; allowed is 0.0038 to 0.0205 A"):
        computed("loop-current", "A", "10.9 bar", "0 bar", "10 bar")


def test_limits_belong_to_the_range_in_every_unit() -> None:
    assert computed("loop-value", "%", "0.0038 A", "0 %", "100 %") == pytest.approx(-1.25)
    assert computed("loop-value", "%", "20500 µA", "0 %", "100 %") == pytest.approx(103.125)


@pytest.mark.parametrize("given", [{}, {"span": 100.0, "width": 3.0}, {"width": 3.0}])
def test_values_are_those_that_the_formula_takes(given: dict[str, float]) -> None:
    with pytest.raises(FormulaError, match="belt-deflection takes span"):
        work_out(FORMULAS["belt-deflection"], given)
    with pytest.raises(FormulaError, match="belt-deflection takes span"):
        compute(FORMULAS["belt-deflection"], {name: parse_quantity("1 mm") for name in given}, "mm")


@pytest.mark.parametrize(
    ("name", "unit", "values", "message"),
    [
        ("belt-deflection", "mm", ["100 V"], "“span” is in V, which cannot be turned into mm"),
        ("belt-deflection", "mm", ["100"], "“span” is in no unit, which cannot be turned into mm"),
        ("belt-deflection", "mm", ["100 furry"], "“span” is in furry"),
        ("belt-deflection", "kg", ["100 mm"], "“result” is in kg, which cannot be turned into mm"),
        ("loop-value", "bar", ["8 mA", "0 V", "10 V"], "“at-4-ma” is in V, which cannot be turned into bar"),
        ("loop-current", "mA", ["5 bar", "0 V", "10 V"], "“at-4-ma” is in V, which cannot be turned into bar"),
        ("superheat", "°C", ["8 bar", "10 °C"], "“result” is in °C, which cannot be turned into K"),
    ],
)
def test_units_measure_what_the_formula_takes(name: str, unit: str, values: list[str], message: str) -> None:
    table = [(7.0, 0.0), (9.0, 2.0)] if FORMULAS[name].table else []
    with pytest.raises(UnfitUnit, match=message):
        computed(name, unit, *values, table=table)


def test_a_difference_of_temperatures_has_no_zero_point() -> None:
    assert fits("K", "K") and fits("K", "Δ°F") and fits("°C", "K") and fits("°C", "°F")
    assert not fits("K", "°C") and not fits("K", "°F")


@given(st.floats(0.1, 1e3), st.floats(1, 1e3), st.floats(0.01, 0.99), st.sampled_from(["bar", "kPa", "MPa", "psi"]))
def test_units_change_nothing_but_the_number(pressure: float, bore: float, share: float, unit: str) -> None:
    rod = bore * share
    newton = computed("cylinder-pull", "N", f"{pressure} bar", f"{bore} mm", f"{rod} mm")
    factor = {"bar": 1, "kPa": 100, "MPa": 0.1, "psi": 14.503773773}[unit]
    other = computed("cylinder-pull", "kN", f"{min(pressure * factor, 1e3 * factor)} {unit}", f"{bore / 10} cm",
                     f"{rod / 1000} m")  # fmt: skip
    assert other * 1000 == pytest.approx(newton, rel=1e-6)


def test_an_error_survives_the_way_to_another_process() -> None:
    error = OutOfRange("span", 5, 10, 20000, "mm")
    again = pickle.loads(pickle.dumps(error))
    assert str(again) == str(error) and again.lowest == 10
