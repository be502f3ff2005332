from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbgen.analysis.stretches import HIGHEST, LOWEST, Cut, Interval, above, below, from_here, stretches, told, up_to

CUTS = st.builds(Cut, st.integers(0, 6).map(float), st.booleans())
INTERVALS = st.builds(Interval, CUTS | st.just(LOWEST), CUTS | st.just(HIGHEST))
WHOLES = INTERVALS.filter(lambda one: not one.is_empty and math.isfinite(one.start.number + one.end.number))
PROBES = [Fraction(quarter, 4) for quarter in range(-2, 27)]


def holds(interval: Interval, number: Fraction) -> bool:
    starts = number > interval.start.number if interval.start.after else number >= interval.start.number
    ends = number <= interval.end.number if interval.end.after else number < interval.end.number
    return starts and ends


@given(WHOLES, st.lists(INTERVALS, max_size=4))
def test_stretches_cover_the_range_once_and_name_their_holders(whole: Interval, intervals: list[Interval]) -> None:
    found = stretches(whole, intervals)
    for number in PROBES:
        here = [stretch for stretch in found if holds(stretch.interval, number)]
        assert len(here) == holds(whole, number)
        for stretch in here:
            assert stretch.holders == tuple(place for place, one in enumerate(intervals) if holds(one, number))


@given(WHOLES, st.lists(INTERVALS, max_size=4))
def test_neighbours_differ_in_their_holders(whole: Interval, intervals: list[Interval]) -> None:
    found = stretches(whole, intervals)
    assert all(one.holders != other.holders for one, other in zip(found, found[1:], strict=False))


@pytest.mark.parametrize(
    ("interval", "words"),
    [
        (Interval(from_here(10), up_to(12)), "10 V to 12 V"),
        (Interval(above(10), up_to(12)), "above 10 V up to 12 V"),
        (Interval(from_here(10), below(12)), "10 V to below 12 V"),
        (Interval(above(10), below(12)), "between 10 V and 12 V"),
        (Interval(from_here(20), up_to(20)), "exactly 20 V"),
        (Interval(from_here(0.1), up_to(40_000_000)), "0.1 V to 40000000 V"),
        (Interval(from_here(-0.0), up_to(2.5)), "0 V to 2.5 V"),
    ],
)
def test_intervals_are_told_in_words(interval: Interval, words: str) -> None:
    assert told(interval, "V") == words


def test_plain_numbers_have_no_unit() -> None:
    assert told(Interval(from_here(1), up_to(2)), "") == "1 to 2"
