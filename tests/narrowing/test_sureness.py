"""How sure a chance is, and on how few cases it rests."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import binomtest

from kbgen.narrowing.model import Model
from kbgen.narrowing.narrow import narrow
from kbgen.narrowing.observe import model_of
from kbgen.narrowing.posterior import posterior
from kbgen.narrowing.sureness import (
    Grounds,
    cases_of_times,
    cases_of_weights,
    counted_share,
    effective_cases,
    grounds_of,
    range_of,
    score_interval,
)
from kbgen.narrowing.wording import in_words
from tests.narrowing.samples import FAN, ICED, ROOM, SENSOR, asked, place

SHARES = st.floats(0.01, 0.99)


@given(successes=st.integers(0, 40), more=st.integers(0, 40))
def test_the_interval_is_the_score_interval(successes: int, more: int) -> None:
    cases = successes + more + 1
    expected = binomtest(successes, cases).proportion_ci(confidence_level=0.9, method="wilson")
    assert score_interval(successes / cases, cases) == pytest.approx((expected.low, expected.high), abs=1e-5)


@given(share=SHARES, cases=st.integers(1, 500))
def test_few_cases_look_like_few_cases(share: float, cases: int) -> None:
    few, many = score_interval(share, cases), score_interval(share, cases * 2)
    assert few[1] - few[0] > many[1] - many[0]


@given(before=SHARES, after=SHARES, cases=st.integers(1, 500))
def test_the_range_holds_the_chance_and_is_the_interval_where_nothing_was_answered(
    before: float, after: float, cases: int
) -> None:
    found = range_of(before, after, cases)
    assert 0 <= found.low <= after <= found.high <= 1
    untouched = range_of(before, before, cases)
    assert (untouched.low, untouched.high) == pytest.approx(score_interval(before, cases))


def test_strong_evidence_narrows_the_range() -> None:
    """By hand: shares of .1 and .9 at the ends of the interval, taken through a Bayes factor of 95."""
    low, high = score_interval(0.5, 3)
    found = range_of(0.5, 95 / 96, 3)
    assert found.low == pytest.approx(95 * low / (1 - low) / (1 + 95 * low / (1 - low)))
    assert found.high - found.low < 0.1 < high - low


def test_a_single_fault_has_no_range() -> None:
    assert range_of(1.0, 1.0, 3) == range_of(1.0, 1.0, 300)


def test_cases_in_proportion_to_the_chances_all_count() -> None:
    assert effective_cases((1 / 6, 2 / 6, 3 / 6), (10, 20, 30)) == pytest.approx(60)


def test_cases_that_count_unequally_are_worth_fewer() -> None:
    """Fifty weights of 1 and fifty of 2 are worth 90: worked example of askvity.info on Kish's formula."""
    assert effective_cases((1 / 3, 2 / 3), (50, 50)) == pytest.approx(90)


def test_cases_of_the_fault_that_is_sure_count_alone() -> None:
    assert effective_cases((0.0, 1.0), (50, 3)) == pytest.approx(3)


def test_judgement_counts_as_one_case() -> None:
    assert cases_of_weights(FAN) == 1
    assert cases_of_times(replace(ICED, times_counted=False)) == 1
    assert cases_of_times(ICED) == cases_of_weights(ICED) == 20


def test_the_counted_share_is_that_of_causes_from_records() -> None:
    known = posterior(ROOM, {})
    iced = next(number for number, fault in enumerate(ROOM.faults) if fault.id == "iced-up")
    assert counted_share(ROOM, known) == pytest.approx(known.faults[iced])


def test_grounds_tell_given_from_assumed() -> None:
    answers = {place(ROOM, "iced-up.room-warm"): True, place(ROOM, "room-panel:RM 31"): True}
    found = {fault.id: grounds_of(ROOM, answers, number) for number, fault in enumerate(ROOM.faults) if fault.id}
    assert found == {"iced-up": Grounds(1, 1), "fan-stands": Grounds(0, 2), "sensor-wrong": Grounds(0, 2)}


@pytest.mark.parametrize(
    ("chance", "words"),
    [(1, "Almost sure"), (0.95, "Almost sure"), (0.8, "Very likely"), (0.5, "Likely"), (0.2, "Possible")]
    + [(0.05, "Less likely"), (0.049, "Unlikely"), (0, "Unlikely")],
)
def test_chances_in_words(chance: float, words: str) -> None:
    assert in_words(chance) == words


@settings(max_examples=100, deadline=None)
@given(given=asked())
def test_the_ranking_is_in_order_and_complete(given: tuple[Model, dict[int, bool]]) -> None:
    model, answers = given
    found = narrow(model, answers)
    assert sorted(one.fault for one in found.ranking) == list(range(len(model.faults)))
    assert all(a.chance >= b.chance - 1e-9 for a, b in zip(found.ranking, found.ranking[1:], strict=False))
    assert sum(one.chance for one in found.ranking) == pytest.approx(1)
    assert all(0 < one.cause_share <= 1 + 1e-9 for one in found.ranking)
    assert 0 <= found.counted <= 1 + 1e-9


def test_more_cases_make_the_range_of_the_leading_fault_narrower() -> None:
    more = model_of(
        replace(fault, causes=tuple(replace(one, cases=one.cases * 10) for one in fault.causes))
        for fault in (ICED, FAN, SENSOR)
    )
    few, many = narrow(model_of((ICED, FAN, SENSOR)), {}).ranking[0].range, narrow(more, {}).ranking[0].range
    assert many.high - many.low < few.high - few.low
