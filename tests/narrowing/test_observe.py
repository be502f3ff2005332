"""What can be observed, and what is assumed where the author is silent."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kbgen.narrowing.assumed import LEAST, LISTED, MOST, NOT_NAMED
from kbgen.narrowing.fault import Cause, Fault, Symptom
from kbgen.narrowing.model import Model, Observation
from kbgen.narrowing.observe import ANOTHER, allowing_for_another, model_of, same_words
from tests.narrowing.samples import FAN, ICED, ROOM, SENSOR, models, place


def observed(name: str, model: Model = ROOM) -> Observation:
    return model.observations[place(model, name)]


def by_cause(observation: Observation, fault: Fault) -> tuple[float, ...]:
    number = next(number for number, one in enumerate(ROOM.faults) if one.id == fault.id)
    return next(one.by_cause for one in observation.chances if one.fault == number)


def test_the_order_of_the_faults_makes_no_difference() -> None:
    assert allowing_for_another(model_of((SENSOR, FAN, ICED))) == ROOM


def test_symptoms_in_the_same_words_are_one() -> None:
    warm = observed("iced-up.room-warm")
    assert [ROOM.faults[one.fault].id for one in warm.chances] == ["iced-up", "fan-stands"]
    assert warm.also == ("rising temperature",)


@pytest.mark.parametrize(
    ("one", "other"),
    [("The fan hums", "the  FAN hums."), ("Pump – labours", "pump labours"), ("ﬁlter wet", "Filter wet")],
)
def test_words_are_the_same_whatever_the_case_and_the_marks(one: str, other: str) -> None:
    assert same_words(one) == same_words(other)


@pytest.mark.parametrize(("one", "other"), [("fan hums", "the fan hums"), ("fan stands", "fans stand")])
def test_nothing_further_is_guessed(one: str, other: str) -> None:
    assert same_words(one) != same_words(other)


def test_other_words_for_a_symptom_do_not_join_it_to_another() -> None:
    made = model_of(
        [
            replace(ICED, symptoms=(Symptom("a", "Pump labours", ("it hums",)),), codes=(), looks=()),
            replace(FAN, symptoms=(Symptom("b", "It hums"),), codes=(), looks=()),
        ]
    )
    assert len(made.observations) == 2


def test_figures_of_the_author_count_within_bounds() -> None:
    assert by_cause(observed("iced-up.coil-white"), ICED) == (0.9, 0.3, 0.7)
    assert by_cause(observed("iced-up.room-warm"), ICED) == (NOT_NAMED, NOT_NAMED, LEAST)
    certain = replace(ICED, causes=(Cause("", 1, 0, {"coil-white": 1}),))
    assert observed("iced-up.coil-white", model_of([certain])).chances[0].by_cause == (MOST,)


def test_a_cause_without_any_figures_may_show_what_its_procedure_lists() -> None:
    assert by_cause(observed("fan-stands.hums"), FAN) == (0.7, LISTED)


def test_a_symptom_without_any_figures_is_as_likely_as_not() -> None:
    assert by_cause(observed("sensor-wrong.jumps"), SENSOR) == (LISTED,)
    assert by_cause(observed("iced-up.room-warm"), FAN) == (LISTED, LISTED)


def test_it_is_known_which_chances_the_author_gave() -> None:
    given = {ROOM.faults[one.fault].id: one.given for one in observed("iced-up.room-warm").chances}
    assert given == {"iced-up": True, "fan-stands": False}


def test_codes_are_told_by_display_and_code() -> None:
    codes = [one for one in ROOM.observations if one.kind == "code"]
    assert [(one.name, one.text, one.display) for one in codes] == [
        ("room-panel:RM 31", "RM 31: Room too warm", "Room panel"),
        ("room-panel:RM 51", "RM 51: Fan tripped", "Room panel"),
    ]
    assert by_cause(codes[0], ICED) == (0.95, 0.95, 0.95)
    assert by_cause(codes[0], FAN) == (0.5, 0.5)


def test_a_fault_that_does_not_say_how_often_counts_as_the_median() -> None:
    assert dict(zip((one.id for one in ROOM.faults), ROOM.times, strict=True))["sensor-wrong"] == 7.5
    assert model_of([SENSOR]).times == (1.0,)


def test_one_more_fault_is_allowed_for_like_the_median_of_the_others() -> None:
    assert ROOM.faults[-1] is ANOTHER
    assert ROOM.times[-1] == 7.5
    assert all(one.fault < len(ROOM.faults) - 1 for seen in ROOM.observations for one in seen.chances)


def test_the_quickest_look_is_taken() -> None:
    warm = observed("iced-up.room-warm")
    assert warm.by_looking is not None
    assert warm.by_looking.look.step == "feel"
    assert warm.seconds == 30


@settings(max_examples=100, deadline=None)
@given(model=models())
def test_chances_at_the_start_follow_how_often_and_the_weights(model: Model) -> None:
    assert sum(map(sum, model.prior)) == pytest.approx(1)
    for fault, causes, times in zip(model.faults, model.prior, model.times, strict=True):
        weights = [cause.weight for cause in fault.causes]
        expected = [times / sum(model.times) * weight / sum(weights) for weight in weights]
        assert list(causes) == pytest.approx(expected)


@settings(max_examples=100, deadline=None)
@given(model=models(), data=st.data())
def test_every_symptom_and_code_is_observed_once(model: Model, data: st.DataObject) -> None:
    names = [one.name for one in model.observations]
    assert len(set(names)) == len(names)
    for number, fault in enumerate(model.faults):
        told = [one for one in model.observations if any(chances.fault == number for chances in one.chances)]
        assert len(told) == len(fault.symptoms) + len(fault.codes)
        assert all(len(c.by_cause) == len(fault.causes) for one in told for c in one.chances if c.fault == number)
        assert all(LEAST <= chance <= MOST for one in told for c in one.chances for chance in c.by_cause)
