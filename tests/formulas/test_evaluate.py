"""Each word of a tree does what the description of the tree says."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbgen.formulas.errors import OutOfRange, Undefined
from kbgen.formulas.evaluate import evaluate, holds
from kbgen.formulas.expression import parse, parse_condition

TABLE = [(1.0, 10.0), (2.0, 30.0), (4.0, -10.0)]


def value(text: str, **names: float) -> float:
    return evaluate(parse(text, names, ["table"]), names, {"table": TABLE})


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("7 - 2 * 3", 1),
        ("-(1 - 3)", 2),
        ("3 ** 4", 81),
        ("min(3, 1, 2)", 1),
        ("max(3, 1, 2)", 3),
        ("abs(-2.5)", 2.5),
        ("floor(-2.5)", -3),
        ("floor(2.5)", 2),
        ("sqrt(2)", math.sqrt(2)),
        ("ln(10)", math.log(10)),
        ("exp(1)", math.e),
        ("polynomial(2, [1, 10, 100])", 421),
        ("polynomial(2, [5])", 5),
        ("a = 2\nb = a * a\na + b", 6),
        ("1 if 1 < 2 and 2 < 1 else 2", 2),
        ("1 if 1 < 2 or 2 < 1 else 2", 1),
        ("1 if not 2 <= 2 else 2", 2),
        ("1 if 2 >= 2 and 2 == 2 and 3 > 2 else 2", 1),
        ("interpolate(table, 1)", 10),
        ("interpolate(table, 1.5)", 20),
        ("interpolate(table, 2)", 30),
        ("interpolate(table, 3)", 10),
        ("interpolate(table, 4)", -10),
    ],
)
def test_a_word_means_what_the_description_says(text: str, expected: float) -> None:
    assert value(text) == expected


def test_the_other_way_is_not_worked_out() -> None:
    assert value("1 if x == 0 else 1 / x", x=0.0) == 1
    assert holds(parse_condition("x == 0 or 1 / x > 0", ["x"]), {"x": 0.0})
    assert not holds(parse_condition("x > 0 and 1 / x > 0", ["x"]), {"x": 0.0})


@pytest.mark.parametrize(
    "text",
    [
        "1 / 0", "0 / 0", "1e308 * 10", "1e308 + 1e308", "sqrt(-1)", "ln(0)", "ln(-1)", "exp(1000)",
        "1e200 ** 2", "polynomial(1e200, [0, 0, 1])", "1 / (1e308 * 10)",
    ],
)  # fmt: skip
def test_a_step_without_a_finite_value_is_an_error(text: str) -> None:
    with pytest.raises(Undefined):
        value(text)


@pytest.mark.parametrize("x", [0.999, 4.001, -1e9, 1e9])
def test_a_table_ends_where_it_ends(x: float) -> None:
    with pytest.raises(OutOfRange) as caught:
        value("interpolate(table, x)", x=x)
    assert (caught.value.name, caught.value.lowest, caught.value.highest) == ("table", 1, 4)


@given(st.floats(1, 4), st.floats(1, 4))
def test_a_table_that_rises_is_looked_up_rising(one: float, other: float) -> None:
    rows = {"table": [(1.0, 0.0), (1.5, 0.1), (3.0, 7.0), (4.0, 7.5)]}
    tree = parse("interpolate(table, x)", ["x"], ["table"])
    low, high = sorted((one, other))
    assert evaluate(tree, {"x": low}, rows) <= evaluate(tree, {"x": high}, rows)


@given(st.floats(-99, 99))
def test_a_root_is_found_to_the_last_places(x: float) -> None:
    assert value("root(t, -100, 100, t - x)", x=x) == pytest.approx(x, rel=1e-14, abs=1e-13)
    assert value("root(t, -100, 100, x - t)", x=x) == pytest.approx(x, rel=1e-14, abs=1e-13)


def test_a_root_needs_a_change_of_sign() -> None:
    with pytest.raises(Undefined, match="no t between 0 and 1 fits"):
        value("root(t, 0, 1, t + 1)")
