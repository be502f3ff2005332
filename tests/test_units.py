from __future__ import annotations

import subprocess
import sys
from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbgen.units import Unit, alike, convert, same_dimension, unit
from kbgen.units.generate import text as generated
from kbgen.units.lookup import TABLE
from kbgen.units.writing import WORDS

LIBRARY: pint.UnitRegistry[float] = pint.UnitRegistry()
LINEAR = sorted(set(WORDS) - {"dB"})


def known(text: str) -> Unit:
    found = unit(text)
    assert found is not None, text
    return found


def turned(number: float, source: str, target: str) -> float:
    return convert(number, known(source), known(target))


BY_DIMENSION = {
    dimension: [symbol for symbol in LINEAR if known(symbol).dimension == dimension]
    for dimension in sorted({known(symbol).dimension for symbol in LINEAR})
}


def test_the_table_is_what_the_library_says() -> None:
    assert TABLE.read_text(encoding="utf-8") == generated()


@pytest.mark.parametrize("symbol", LINEAR)
def test_numbers_are_turned_as_the_library_turns_them(symbol: str) -> None:
    one = known(symbol)
    for number in (0.0, 1.0, 36.6):
        root = LIBRARY.Quantity(number, WORDS[symbol]).to_root_units().magnitude
        assert number * float(one.factor) + float(one.offset) == pytest.approx(root, rel=1e-12, abs=1e-12)


@pytest.mark.parametrize(
    ("number", "source", "target", "expected"),
    [
        (100, "mV", "V", 0.1),
        (0.4, "kV", "V", 400),
        (2.5, "MΩ", "kΩ", 2500),
        (330, "uF", "µF", 330),
        (1, "bar", "kPa", 100),
        (7, "bar", "MPa", 0.7),
        (250, "mbar", "bar", 0.25),
        (100, "°C", "°F", 212),
        (-40, "°F", "°C", -40),
        (41, "°F", "°C", 5),
        (20, "°C", "K", 293.15),
        (1500, "rpm", "Hz", 25),
        (1450, "1/min", "min⁻¹", 1450),
        (6, "m³/h", "L/min", 100),
        (90, "min", "h", 1.5),
        (12, "Nm", "N·m", 12),
        (0.5, "%", "ppm", 5000),
        (0.5, "", "%", 50),
        (1.5, "turns", "°", 540),
        (4.5, "mm/s", "m/s", 0.0045),
        (1, "in", "mm", 25.4),
        (2, "kN", "N", 2000),
    ],
)
def test_hand_values_come_out_exactly(number: float, source: str, target: str, expected: float) -> None:
    assert turned(number, source, target) == expected


def test_pounds_per_square_inch_after_the_international_pound_and_standard_gravity() -> None:
    pascal = Fraction("0.45359237") * Fraction("9.80665") / Fraction("0.0254") ** 2
    assert turned(1, "psi", "Pa") == float(pascal)


@given(st.integers(-(10**9), 10**9), st.sampled_from([("V", "mV"), ("bar", "mbar"), ("MΩ", "kΩ"), ("m", "mm")]))
def test_limits_that_are_equal_on_paper_are_equal(thousandths: int, pair: tuple[str, str]) -> None:
    large, small = pair
    written = float(f"{thousandths}e-3")
    assert turned(thousandths, small, large) == written
    assert turned(written, large, small) == thousandths


@given(st.data(), st.decimals(-1000, 1000, places=4))
def test_there_and_back_is_the_same_number(data: st.DataObject, number: object) -> None:
    units = BY_DIMENSION[data.draw(st.sampled_from(sorted(BY_DIMENSION)))]
    source, target = data.draw(st.sampled_from(units)), data.draw(st.sampled_from(units))
    start = float(str(number))
    assert turned(turned(start, source, target), target, source) == pytest.approx(start, rel=1e-12, abs=1e-9)


@given(st.floats(-1e6, 1e6), st.floats(-1e6, 1e6), st.sampled_from([("°F", "°C"), ("psi", "bar"), ("in", "mm")]))
def test_the_order_of_numbers_is_kept(one: float, other: float, pair: tuple[str, str]) -> None:
    small, large = sorted([one, other])
    assert turned(small, *pair) <= turned(large, *pair)


@pytest.mark.parametrize(
    ("one", "other"),
    [("V", "A"), ("bar", "N"), ("°", "%"), ("dB", "%"), ("pulses", ""), ("mm", "mm/s"), ("rpm", "°"), ("V", "")],
)
def test_what_is_not_alike_cannot_be_turned(one: str, other: str) -> None:
    assert not same_dimension(known(one), known(other))
    with pytest.raises(ValueError, match="cannot be turned"):
        turned(1, one, other)


def test_small_and_large_letters_differ() -> None:
    assert turned(1, "MΩ", "mΩ") == 1e9
    assert unit("mohm") != unit("Mohm")
    assert unit("Bar") is None
    assert alike("Bar") == ("bar",)
    assert alike("mω") == ("MΩ", "mΩ")


@pytest.mark.parametrize(
    ("text", "same"),
    [("\u2126", "Ω"), ("\u03bcF", "µF"), ("N * m", "N·m"), ("L / min", "L/min"), ("\u2103", "°C"), (" V ", "V")],
)
def test_look_alikes_are_one_unit(text: str, same: str) -> None:
    assert unit(text) == unit(same)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("kPa·s", "kilopascal * second"),
        ("W/(m²·K)", "watt / (meter ** 2 * kelvin)"),
        ("Nm/rad", "newton * meter / radian"),
        ("m^-1", "1 / meter"),
        ("kcal", "kilocalorie"),
        ("yard", "yard"),
        ("1/h", "1 / hour"),
    ],
)
def test_rare_units_are_looked_up_in_the_library(text: str, words: str) -> None:
    assert text not in WORDS
    root = LIBRARY.Quantity(1.0, words).to_root_units()
    assert float(known(text).factor) == pytest.approx(root.magnitude, rel=1e-12)


@pytest.mark.parametrize(
    "text",
    ["volts!", "e", "c", "bar g", "ma", "KPa", "centifermi", "10 V", "m^99", "m^9^9^9", "9**9**9", "V/", "m" * 41],
)
def test_what_is_no_unit_is_none(text: str) -> None:
    assert unit(text) is None


@given(st.text(max_size=60) | st.text("mkVAΩ°%·/^()-123 ²⁻¹", max_size=30))
def test_any_text_is_a_unit_or_none(text: str) -> None:
    found = unit(text)
    assert found is None or found.factor > 0


def test_the_library_is_loaded_for_rare_units_only() -> None:
    code = (
        "import sys; from kbgen.units import unit; unit('mV'); unit('m³/h'); print('pint' in sys.modules); "
        "unit('kPa·s'); print('pint' in sys.modules)"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.split() == ["False", "True"]
