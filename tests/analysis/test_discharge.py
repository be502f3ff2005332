"""The time of discharge against worked figures from outside."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbgen.analysis.discharge import MARGIN, draining_time
from kbgen.model.tables import EnergySource, StoredEnergy
from kbgen.model.words import EnergyKind
from tests.analysis.energy_walks import quantity, source


def _link(ohms: float, farads: float, volts: float, safe: float, margin: float | None = None) -> EnergySource:
    stored = StoredEnergy(
        resistance=quantity(ohms, "Ω"),
        capacitance=quantity(farads, "F"),
        voltage=quantity(volts, "V"),
        safe_voltage=quantity(safe, "V"),
        margin=margin,
    )
    return replace(source("link", EnergyKind.STORED_ELECTRICAL), stored=stored)


# 800 V, 100 kΩ, 2,000 µF: 554.5 s to 50 V and 518.1 s to 60 V; the first is printed as 554 s in a public note on the
# safe discharge time of DC links, both recomputed. 565 V, 1,000 µF and 2,230 Ω reach 60 V in 5 s, the time that
# IEC 60204-1, 6.2.4 gives (limit of resistance recomputed).
@pytest.mark.parametrize(
    ("ohms", "farads", "volts", "safe", "seconds"),
    [(100e3, 2000e-6, 800, 50, 555), (100e3, 2000e-6, 800, 60, 519), (2229, 1000e-6, 565, 60, 5)],
)
def test_published_figures(ohms: float, farads: float, volts: float, safe: float, seconds: int) -> None:
    assert draining_time(_link(ohms, farads, volts, safe, margin=1)) == seconds


def test_the_margin_is_a_quarter_unless_the_source_says_otherwise() -> None:
    assert MARGIN == 1.25
    assert draining_time(_link(100e3, 2000e-6, 800, 50)) == 694
    assert draining_time(_link(100e3, 2000e-6, 800, 50, margin=2)) == 1110


def test_other_units_of_the_same_dimension_give_the_same_time() -> None:
    stored = StoredEnergy(
        resistance=quantity(0.1, "MΩ"),
        capacitance=quantity(2, "mF"),
        voltage=quantity(0.8, "kV"),
        safe_voltage=quantity(50000, "mV"),
    )
    link = replace(source("link", EnergyKind.STORED_ELECTRICAL), stored=stored)
    assert draining_time(link) == draining_time(_link(100e3, 2000e-6, 800, 50))


@pytest.mark.parametrize("missing", ["resistance", "capacitance", "voltage", "safe_voltage"])
def test_a_missing_figure_leaves_the_time_open(missing: str) -> None:
    link = _link(100e3, 2000e-6, 800, 50)
    assert link.stored is not None
    assert draining_time(replace(link, stored=replace(link.stored, **{missing: None}))) is None


def test_a_unit_of_another_dimension_leaves_the_time_open() -> None:
    link = _link(100e3, 2000e-6, 800, 50)
    assert link.stored is not None
    assert draining_time(replace(link, stored=replace(link.stored, voltage=quantity(800, "A")))) is None


def test_what_is_safe_from_the_start_needs_no_time() -> None:
    assert draining_time(_link(100e3, 2000e-6, 48, 50)) == 0


def test_only_stored_electrical_energy_drains_by_this_formula() -> None:
    assert draining_time(source("mains", EnergyKind.ELECTRICAL)) is None


@given(st.floats(1, 1e6), st.floats(1e-6, 1e-2), st.floats(60, 1000))
def test_the_voltage_after_the_time_is_the_safe_one(ohms: float, farads: float, volts: float) -> None:
    seconds = draining_time(_link(ohms, farads, volts, 50, margin=1))
    assert seconds is not None
    left = volts * 2.718281828459045 ** (-seconds / (ohms * farads))
    one_earlier = volts * 2.718281828459045 ** (-(seconds - 1) / (ohms * farads))
    assert left <= 50 * (1 + 1e-9) and (one_earlier >= 50 * (1 - 1e-9) or seconds == 0)
