"""Times of whole procedures, reckoned by hand."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kbgen.analysis import unwind
from kbgen.analysis.spent import Spent, about, in_words
from kbgen.analysis.times import OutcomeTime, Times, times
from kbgen.model.values import parse_duration
from tests.check.knowledge_base import SLIPS, TABLES, KnowledgeBase
from tests.route.test_trace import opened

TRIPS = "conveyors/drive-trips.yaml"


@pytest.fixture
def base(tmp_path: Path) -> KnowledgeBase:
    return KnowledgeBase.copy_to(tmp_path)


def times_of(base: KnowledgeBase, file: str = SLIPS) -> Times:
    case = opened(base, file)
    found = times(case.procedure, case.route, case.walk)
    assert found is not None
    return found


def outcome(found: Times, key: str) -> OutcomeTime:
    return next(one for one in found.outcomes if one.place.key == key)


def minutes(number: float) -> Spent:
    return Spent(round(60 * number))


# Up to the question of water: watch 2, sequence 8, guard 3, wet 2 minutes. Measuring takes 4, tightening 10, marking 2.
WET_FOUND = 0.3 * 0.9
PART_AT_ONCE = 0.3 * 0.1 + 0.1 + 0.6 * 0.05
AFTER_ONE = 0.6 * 0.95 * (0.9 + 0.1 * 0.05)
AFTER_TWO = 0.6 * 0.95 * 0.1 * 0.95 * (0.9 + 0.1 * 0.05)
TIGHTENED_THRICE = 0.6 * 0.95 * 0.1 * 0.95 * 0.1 * 0.95


def test_the_shortest_and_the_longest(base: KnowledgeBase) -> None:
    found = times_of(base)
    bounds = {one.place.key: (one.shortest, one.longest) for one in found.outcomes}
    assert bounds == {
        "part": (minutes(21), minutes(49)),
        "hand-over": (minutes(57), minutes(57)),
        "fixed": (minutes(27), minutes(27)),
        "not-this": (minutes(2), minutes(2)),
        "call": (minutes(2), minutes(10)),
    }
    assert (found.whole.shortest, found.whole.longest) == (minutes(2), minutes(57))


def test_the_shares(base: KnowledgeBase) -> None:
    found = times_of(base)
    assert {one.place.key: one.share for one in found.outcomes} == pytest.approx(
        {
            "part": PART_AT_ONCE + AFTER_ONE + AFTER_TWO,
            "fixed": WET_FOUND,
            "hand-over": TIGHTENED_THRICE,
            "not-this": 0,
            "call": 0,
        }
    )
    assert [one.share for one in found.outcomes] == sorted((one.share for one in found.outcomes), reverse=True)


def test_the_expected_times(base: KnowledgeBase) -> None:
    found = times_of(base)
    part = (21 * PART_AT_ONCE + 35 * AFTER_ONE + 49 * AFTER_TWO) / (PART_AT_ONCE + AFTER_ONE + AFTER_TWO)
    assert outcome(found, "part").expected == minutes(part)
    assert outcome(found, "hand-over").expected == minutes(57)
    assert outcome(found, "call").expected is None
    whole = 21 * PART_AT_ONCE + 35 * AFTER_ONE + 49 * AFTER_TWO + 27 * WET_FOUND + 57 * TIGHTENED_THRICE
    assert found.whole.expected == minutes(whole)


def test_waiting_is_told_from_working(base: KnowledgeBase) -> None:
    found = times_of(base, TRIPS)
    assert outcome(found, "part").longest == Spent(69 * 60, 5 * 60)
    assert outcome(found, "fixed").longest.waiting == 0
    assert outcome(found, "part").longest.working == 64 * 60


def test_a_set_up_is_done_once(base: KnowledgeBase) -> None:
    before = outcome(times_of(base), "hand-over").longest
    base.change(SLIPS, "temporary-changes:\n", "set-ups: [{id: lamp, text: A lamp, takes: 90 s}]\ntemporary-changes:\n")
    base.change(SLIPS, "        takes: 4 min\n", "        takes: 4 min\n        set-up: [lamp]\n")
    found = times_of(base)
    assert outcome(found, "hand-over").longest == before.plus(Spent(90))
    assert outcome(found, "fixed").longest == minutes(27)


def test_steps_without_a_time_are_named(base: KnowledgeBase) -> None:
    assert times_of(base).unstated == ()
    base.change(SLIPS, "        takes: 5 min\n", "")
    assert times_of(base).unstated == ("5",)
    clear = "            do: Take all tools out and see that every guard is on.\n"
    base.change(TABLES, f"{clear}            takes: 2 min\n", clear)
    assert times_of(base).unstated == ("5", "12.1")


def test_everyone_is_bound_by_default(base: KnowledgeBase) -> None:
    base.change(SLIPS, "trade: Mechanics}", "trade: Mechanics, count: 2}")
    found = times_of(base)
    assert found.whole.expected is not None
    (fitter,) = found.persons
    assert (fitter.qualification, fitter.persons) == ("machine-fitter", 2)
    assert fitter.spent.whole == pytest.approx(2 * found.whole.expected.whole, abs=1)


TWO = "    - {qualification: machine-fitter, trade: Mechanics}\n"
AND_ELECTRICIAN = TWO + "    - {qualification: electrically-skilled, trade: Electrics}\n"


def bound(base: KnowledgeBase, file: str = SLIPS) -> dict[str, int]:
    return {one.qualification: one.spent.whole for one in times_of(base, file).persons}


def test_a_step_that_runs_a_sequence_says_whose_work_its_steps_are(base: KnowledgeBase) -> None:
    base.change(SLIPS, TWO, AND_ELECTRICIAN)
    base.change(SLIPS, "        run: isolate-and-prove\n",
                "        run: isolate-and-prove\n        done-by: [electrically-skilled]\n")  # fmt: skip
    found = times_of(base)
    assert found.whole.expected is not None
    whole = found.whole.expected.whole
    assert bound(base) == {"electrically-skilled": whole, "machine-fitter": whole - 8 * 60}


def test_a_group_says_whose_work_its_steps_are(base: KnowledgeBase) -> None:
    base.change(SLIPS, TWO, AND_ELECTRICIAN)
    base.change(SLIPS, "  - group: At the drum\n", "  - group: At the drum\n    done-by: [machine-fitter]\n")
    expected = bound(base)
    assert expected["electrically-skilled"] == pytest.approx(60 * (2 + 8 + 4 * WET_FOUND), abs=1)


def test_live_work_narrows_what_a_step_does_not_say_itself(base: KnowledgeBase) -> None:
    one = "    - {qualification: electrically-skilled, trade: Electrics}\n"
    base.change(TRIPS, one, one + TWO)
    apart = bound(base, TRIPS)
    assert apart["electrically-skilled"] - apart["machine-fitter"] == 5 * 60
    base.change(
        TRIPS, "        live-work:\n", "        done-by: [electrically-skilled, machine-fitter]\n        live-work:\n"
    )
    together = bound(base, TRIPS)
    assert together["machine-fitter"] == together["electrically-skilled"]


def test_too_many_situations_are_not_reckoned(base: KnowledgeBase, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(unwind, "MOST_SITUATIONS", 10)
    case = opened(base)
    assert times(case.procedure, case.route, case.walk) is None


def test_a_loop_without_a_limit_is_not_reckoned(base: KnowledgeBase) -> None:
    base.change(SLIPS, "        at-most: 2\n        after-that: hand-over\n", "")
    case = opened(base)
    assert times(case.procedure, case.route, case.walk) is None


@pytest.mark.parametrize(
    ("seconds", "exact", "rough"),
    [
        (0, "0 min", "0 min"),
        (45, "45 s", "45 s"),
        (90, "1 min 30 s", "1 min 30 s"),
        (630, "10 min 30 s", "11 min"),
        (3629, "1 h 29 s", "1 h"),
        (5400, "1 h 30 min", "1 h 30 min"),
        (90_000, "1 d 1 h", "1 d 1 h"),
    ],
)
def test_times_in_words(seconds: int, exact: str, rough: str) -> None:
    assert (in_words(seconds), about(seconds)) == (exact, rough)


@settings(deadline=None)
@given(st.integers(0, 10**7))
def test_words_can_be_read_again(seconds: int) -> None:
    assert parse_duration(in_words(seconds)).seconds == seconds
