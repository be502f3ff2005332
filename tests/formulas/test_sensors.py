"""Worked values of sensors and signals, each with its source, and the inverse pairs."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from thermocouple_its90 import TypeK

from kbgen.formulas.errors import Conflict, OutOfRange, Undefined
from tests.formulas.working import computed, worked

# tinkererway.dev/the_dev_calc/rtd_calc, after IEC 60751; all recomputed.
PT100 = [
    (-200, 18.52), (-100, 60.26), (0, 100), (25, 109.73), (50, 119.40), (100, 138.51), (200, 175.86), (600, 313.71),
    (850, 390.48),
]  # fmt: skip

# ITS-90 tables of type K (its90.nist.gov), junction at 0 °C.
TYPE_K = [
    (-100, -3.554), (25, 1.000), (100, 4.096), (200, 8.138), (400, 16.397), (500, 20.644), (1000, 41.276),
    (1200, 48.838),
]  # fmt: skip


@pytest.mark.parametrize(("temperature", "resistance"), PT100)
def test_pt100(temperature: float, resistance: float) -> None:
    assert worked("pt100-resistance", temperature) == pytest.approx(resistance, abs=0.005)
    # 0.005 Ω of rounding are at most 0.017 K at the hot end and 0.012 K at the cold one.
    assert worked("pt100-temperature", resistance) == pytest.approx(temperature, abs=0.018)


def test_pt100_of_the_published_inverse() -> None:
    assert worked("pt100-temperature", 119.40) == pytest.approx(50.01, abs=0.005)


@given(st.floats(-200, 850))
def test_pt100_there_and_back(temperature: float) -> None:
    assert worked("pt100-temperature", worked("pt100-resistance", temperature)) == pytest.approx(temperature, abs=1e-9)


@given(st.floats(-200, 850), st.floats(-200, 850))
def test_pt100_rises(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert worked("pt100-resistance", low) <= worked("pt100-resistance", high)


@pytest.mark.parametrize("resistance", [18.51, 390.5, 0, -1, float("nan"), float("inf")])
def test_pt100_outside_its_range(resistance: float) -> None:
    with pytest.raises(OutOfRange) as caught:
        worked("pt100-temperature", resistance)
    assert (caught.value.name, caught.value.lowest, caught.value.highest) == ("resistance", 18.52, 390.49)


@pytest.mark.parametrize(("temperature", "voltage"), TYPE_K)
def test_type_k(temperature: float, voltage: float) -> None:
    assert worked("thermocouple-k-voltage", temperature, 0) == pytest.approx(voltage, abs=5e-4)
    # Half of the last printed place, 0.0005 mV, is at most 0.02 K at −100 °C.
    assert worked("thermocouple-k-temperature", voltage, 0) == pytest.approx(temperature, abs=0.02)


@given(st.floats(-200, 1372), st.floats(0, 50))
def test_type_k_against_a_library(temperature: float, cold: float) -> None:
    voltage = TypeK.emf(temperature, reference=cold)
    assert worked("thermocouple-k-voltage", temperature, cold) == pytest.approx(voltage, abs=1e-8)
    assert worked("thermocouple-k-temperature", voltage, cold) == pytest.approx(
        TypeK.temperature(voltage, reference=cold), abs=1e-4
    )


@given(st.floats(-199.9, 1371.9), st.floats(-40, 100))
def test_type_k_there_and_back(temperature: float, cold: float) -> None:
    voltage = worked("thermocouple-k-voltage", temperature, cold)
    assert worked("thermocouple-k-temperature", voltage, cold) == pytest.approx(temperature, abs=1e-6)


@given(st.floats(-200, 1372), st.floats(-200, 1372))
def test_type_k_rises(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert worked("thermocouple-k-voltage", low, 25) <= worked("thermocouple-k-voltage", high, 25)


def test_type_k_shows_the_cold_junction_without_voltage() -> None:
    assert worked("thermocouple-k-temperature", 0, 23.4) == pytest.approx(23.4, abs=1e-6)


def test_type_k_beyond_its_range_is_no_temperature() -> None:
    with pytest.raises(OutOfRange, match="“voltage” is 61 mV; allowed is -10 to 60 mV"):
        worked("thermocouple-k-temperature", 61, 0)
    with pytest.raises(OutOfRange, match="“result” is 1375"):
        worked("thermocouple-k-temperature", 55, 0)
    with pytest.raises(Undefined, match="no temperature between -210 and 1380 fits"):
        worked("thermocouple-k-temperature", 60, 0)


@pytest.mark.parametrize(
    ("low", "high", "value", "current"),
    # Recomputed: 0 to 10, −50 to 150 and 0 to 16 bar; and the ends of the valid signal of NAMUR NE 43 as % of the span.
    [(0, 10, 2.5, 8.0), (-50, 150, -20, 6.4), (0, 16, 9.6, 13.6), (0, 100, -1.25, 3.8), (0, 100, 103.125, 20.5)],
)
def test_loop(low: float, high: float, value: float, current: float) -> None:
    assert worked("loop-current", value, low, high) == pytest.approx(current, rel=1e-12)
    assert worked("loop-value", current, low, high) == pytest.approx(value, rel=1e-12)


ends = st.floats(-1e6, 1e6)


@given(st.floats(3.8, 20.5), ends, ends)
def test_loop_there_and_back(current: float, low: float, high: float) -> None:
    if abs(high - low) < 1e-3 * max(abs(low), abs(high), 1e-6):
        return
    assert worked("loop-current", worked("loop-value", current, low, high), low, high) == pytest.approx(current)


@pytest.mark.parametrize("current", [3.79, 20.51])
def test_a_current_outside_the_signal_has_no_value(current: float) -> None:
    with pytest.raises(OutOfRange) as caught:
        worked("loop-value", current, 0, 10)
    assert (caught.value.name, caught.value.lowest, caught.value.highest) == ("current", 3.8, 20.5)


def test_a_value_beyond_the_signal_has_no_current() -> None:
    with pytest.raises(OutOfRange, match="“result”"):
        worked("loop-current", 110, 0, 100)
    with pytest.raises(Conflict, match="the values at 4 mA and at 20 mA differ"):
        worked("loop-current", 5, 5, 5)


@pytest.mark.parametrize(
    ("current", "number"),
    # NAMUR NE 43 as quoted on zeroinstrument.com; to which side the limits belong is from memory. One site,
    # industryhub.site, draws the band of the signal from 3.6 to 21 mA: it is wrong.
    [(0, 1), (3.5, 1), (3.6, 1), (3.7, 2), (3.8, 3), (12, 3), (20.5, 3), (20.7, 4), (21, 5), (22, 5)],
)
def test_loop_class(current: float, number: float) -> None:
    assert worked("loop-current-class", current) == number


def test_units_of_the_author() -> None:
    assert computed("pt100-temperature", "°F", "0.13851 kΩ") == pytest.approx(212, abs=0.03)
    assert computed("thermocouple-k-temperature", "K", "4096 µV", "32 °F") == pytest.approx(373.15, abs=0.02)
    assert computed("loop-value", "mbar", "8 mA", "0 bar", "10 bar") == pytest.approx(2500)
    assert computed("loop-value", "°F", "12 mA", "0 °C", "100 °C") == pytest.approx(122)
    assert computed("loop-current", "A", "122 °F", "0 °C", "100 °C") == pytest.approx(0.012)
    assert computed("loop-current-class", "1", "0.0038 A") == 3
