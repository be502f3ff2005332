"""Worked values of heat and cold, each with its source, and property tables as oracles."""

from __future__ import annotations

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from kbgen.formulas.errors import Conflict, OutOfRange
from tests.formulas.working import computed, worked

# Saturation temperatures of R-410A in °C over absolute pressure in bar; Q is 1 at the dew and 0 at the bubble point.
PRESSURES = [7.0 + 0.25 * place for place in range(80)]


def _saturation(quality: int) -> list[tuple[float, float]]:
    return [(bar, PropsSI("T", "P", bar * 1e5, "Q", quality, "R410A") - 273.15) for bar in PRESSURES]


DEW, BUBBLE = _saturation(1), _saturation(0)


def test_superheat() -> None:
    # processconvert.com: R-410A at 914.91 kPa absolute and 10.00 °C. The page prints a dew point of 4.368 °C and
    # 5.63 K; the reference library has 4.357 °C and 5.64 K.
    assert worked("superheat", 9.1491, 10, table=DEW) == pytest.approx(5.64, abs=0.01)
    assert worked("superheat", 9.1491, 10, table=[(9.0, 4.368), (9.2, 4.368)]) == pytest.approx(5.63, abs=0.005)


def test_subcooling() -> None:
    # A maker's manual of chillers, page 63: R-410A at 355 psi gauge: 108 °F at the bubble point, 95 °F at the line:
    # 13 °F, rounded to whole degrees; the reference library has 107.7 °F and 12.7 °F.
    bar = (355 + 14.696) * 0.0689476
    kelvin = worked("subcooling", bar, (95 - 32) / 1.8, table=BUBBLE)
    assert kelvin * 1.8 == pytest.approx(12.7, abs=0.1)
    assert kelvin * 1.8 == pytest.approx(13, abs=0.5)


@given(st.floats(7, 26.5), st.floats(-40, 80))
def test_between_rows_the_table_is_as_good_as_its_rows_are_close(bar: float, line: float) -> None:
    exact = PropsSI("T", "P", bar * 1e5, "Q", 1, "R410A") - 273.15
    assert worked("superheat", bar, line, table=DEW) == pytest.approx(line - exact, abs=0.02)


def test_a_table_in_units_of_the_author() -> None:
    psi_and_fahrenheit = [(bar / 0.0689475729, celsius * 1.8 + 32) for bar, celsius in DEW]
    found = computed("superheat", "K", "132.7 psi", "50 °F", table=psi_and_fahrenheit)
    assert found == pytest.approx(worked("superheat", 132.7 * 0.0689475729, 10, table=DEW), abs=1e-6)


@pytest.mark.parametrize("bar", [6.99, 26.76])
def test_outside_the_table_there_is_no_answer(bar: float) -> None:
    with pytest.raises(OutOfRange) as caught:
        worked("superheat", bar, 10, table=DEW)
    assert (caught.value.name, caught.value.lowest, caught.value.highest) == ("table", 7.0, 26.75)


def test_outside_the_table_is_told_in_the_unit_of_the_author() -> None:
    with pytest.raises(OutOfRange, match="“table” is 60 psi; allowed is 100 to 120 psi"):
        computed("superheat", "K", "60 psi", "50 °F", table=[(100, 30), (120, 35)])


@pytest.mark.parametrize("table", [[], [(7.0, 0.0)], [(7.0, 0.0), (7.0, 1.0)], [(8.0, 1.0), (7.0, 0.0)]])
def test_a_table_rises(table: list[tuple[float, float]]) -> None:
    with pytest.raises(Conflict):
        worked("superheat", 7, 10, table=table)


def test_a_table_where_none_is_wanted() -> None:
    with pytest.raises(Conflict, match="belt-deflection takes no table"):
        worked("belt-deflection", 1000, table=DEW)


@pytest.mark.parametrize(
    ("difference", "number"),
    # ANSI/NETA table 100.18 (arpedon.com): 1 to 3, 4 to 15, above 15 K. What it leaves open counts as worse.
    [(-5, 1), (0.9, 1), (1, 2), (3, 2), (3.1, 3), (4, 3), (15, 3), (15.1, 4), (80, 4)],
)
def test_hot_spot_against_a_similar_part(difference: float, number: float) -> None:
    assert worked("hot-spot-similar", 40.3 + difference, 40.3) == number


@pytest.mark.parametrize(
    ("difference", "number"),
    # The same table against the air around: 1 to 10, 11 to 20, 21 to 40, above 40 K.
    [(0, 1), (1, 2), (10, 2), (10.5, 3), (11, 3), (20, 3), (20.5, 4), (21, 4), (40, 4), (40.1, 5)],
)
def test_hot_spot_against_the_air(difference: float, number: float) -> None:
    assert worked("hot-spot-ambient", 23.7 + difference, 23.7) == number


@given(st.integers(0, 600), st.sampled_from([1, 3, 15]))
def test_a_difference_on_a_limit_is_on_it_whatever_the_decimals(tenths: int, limit: int) -> None:
    low, high = tenths / 10, (tenths + 10 * limit) / 10
    assert worked("hot-spot-similar", high, low) == {1: 2, 3: 2, 15: 3}[limit]


def test_units_of_the_author() -> None:
    assert computed("hot-spot-similar", "1", "109.4 °F", "104 °F") == 2
    assert computed("superheat", "Δ°F", "8 bar", "10 °C", table=[(7, 0), (9, 2)]) == pytest.approx(9 * 1.8)
