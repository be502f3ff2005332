"""The next question tells most per minute, and never asks for more than a look."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from scipy.stats import entropy as entropy_of

from kbgen.narrowing.assumed import BITS_WORTH_ASKING
from kbgen.narrowing.fault import Cause, Code, Fault, Look, Symptom
from kbgen.narrowing.model import Model
from kbgen.narrowing.observe import model_of
from kbgen.narrowing.posterior import posterior
from kbgen.narrowing.question import Question, entropy, information, next_question
from tests.narrowing.network import fault_and_answer, faults_after
from tests.narrowing.samples import ROOM, asked, place


def two_faults(chance: float, other: float) -> Model:
    return model_of(
        Fault(
            id=name,
            title=name,
            times=1,
            times_counted=False,
            causes=(Cause("", 1, 0, {"s": share}),),
            symptoms=(Symptom("s", "Seen"),),
        )
        for name, share in (("a", chance), ("b", other))
    )


def ask(model: Model, answers: dict[int, bool] | None = None, passed_over: tuple[int, ...] = ()) -> Question | None:
    given = answers or {}
    return next_question(model, posterior(model, given), given, passed_over)


def name_of(question: Question | None) -> str | None:
    return question and ROOM.observations[question.observation].name


@settings(max_examples=40, deadline=None)
@given(given=asked())
def test_information_is_that_of_the_joint_distribution(given: tuple[Model, dict[int, bool]]) -> None:
    """I(F;O) = H(F) + H(O) - H(F,O), the joint distribution from a library for Bayesian networks."""
    model, answers = given
    known = posterior(model, answers)
    for number in [one for one in range(len(model.observations)) if one not in answers][:2]:
        joint = fault_and_answer(model, answers, number)
        expected = (
            entropy_of(joint.sum(0), base=2) + entropy_of(joint.sum(1), base=2) - entropy_of(joint.ravel(), base=2)
        )
        assert information(model.observations[number], known) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(
    ("chance", "other", "bits"),
    [
        (0.9, 0.1, 0.531),  # a binary symmetric channel with 0.1: 0.531, iris.joshua-becker.com and others
        (0.5, 0.5, 0.0),  # nothing is told by what is as likely with the one as with the other
    ],
)
def test_information_of_a_symptom_between_two_faults(chance: float, other: float, bits: float) -> None:
    model = two_faults(chance, other)
    assert information(model.observations[0], posterior(model, {})) == pytest.approx(bits, abs=5e-4)


@pytest.mark.parametrize(("chance", "bits"), [(0.5, 1.0), (0.1, 0.469), (0.0, 0.0), (1.0, 0.0)])
def test_entropy_of_yes_or_no(chance: float, bits: float) -> None:
    assert entropy(chance) == pytest.approx(bits, abs=5e-4)


@settings(max_examples=100, deadline=None)
@given(given=asked())
def test_no_other_open_question_tells_more_per_minute(given: tuple[Model, dict[int, bool]]) -> None:
    model, answers = given
    known = posterior(model, answers)
    rates = {
        number: (bits, bits / one.seconds)
        for number, one in enumerate(model.observations)
        if one.may_be_asked and number not in answers and (bits := information(one, known)) >= BITS_WORTH_ASKING
    }
    question = next_question(model, known, answers)
    assert (question is None) == (not rates)
    if question:
        assert rates[question.observation][1] >= max(rate for _, rate in rates.values()) - 1e-9


@settings(max_examples=40, deadline=None)
@given(given=asked(at_least=2))
def test_the_outlook_is_what_the_answer_would_bring(given: tuple[Model, dict[int, bool]]) -> None:
    model, answers = given
    question = next_question(model, posterior(model, answers), answers)
    if question:
        for is_there, outlook in ((True, question.if_there), (False, question.if_not)):
            after = faults_after(model, {**answers, question.observation: is_there})
            assert outlook.chance == pytest.approx(max(after), abs=1e-9)
            assert after[outlook.fault] == pytest.approx(max(after), abs=1e-8)


@settings(max_examples=200, deadline=None)
@given(given=asked())
def test_what_needs_more_than_a_look_is_never_asked(given: tuple[Model, dict[int, bool]]) -> None:
    model, answers = given
    known = posterior(model, answers)
    passed: set[int] = set()
    while (question := next_question(model, known, answers, passed)) is not None:
        observation = model.observations[question.observation]
        assert observation.may_be_asked
        if observation.kind == "symptom" and observation.by_looking is None:
            named = {one.fault for one in observation.chances}
            assert not any(
                symptom.text == observation.text and symptom.id in fault.not_as_it_stands
                for number, fault in enumerate(model.faults)
                if number in named
                for symptom in fault.symptoms
            )
        passed.add(question.observation)


def test_however_much_it_would_tell() -> None:
    telling = two_faults(0.99, 0.01)
    assert ask(telling) is not None
    behind_a_cover = model_of(replace(fault, not_as_it_stands=("s",)) for fault in telling.faults)
    assert information(behind_a_cover.observations[0], posterior(behind_a_cover, {})) > 0.9
    assert ask(behind_a_cover) is None


def test_one_way_to_look_from_outside_is_enough() -> None:
    telling = two_faults(0.99, 0.01)
    seen = Look("s", "from-the-door", "1", "Is it seen from the door?", 60)
    one, other = telling.faults
    made = model_of([replace(one, not_as_it_stands=("s",)), replace(other, looks=(seen,))])
    found = ask(made)
    assert found is not None
    assert made.observations[found.observation].by_looking is not None


def test_what_was_answered_or_passed_over_is_not_asked_again() -> None:
    first = ask(ROOM)
    assert first is not None
    assert name_of(ask(ROOM, passed_over=(first.observation,))) != name_of(first)
    assert name_of(ask(ROOM, {first.observation: True})) != name_of(first)


def test_a_slow_look_gives_way_to_a_quick_one_that_tells_nearly_as_much() -> None:
    def made(seconds: int) -> Model:
        return model_of(
            Fault(
                id=name,
                title=name,
                times=1,
                times_counted=False,
                causes=(Cause("", 1, 0, {"s": share, "t": 0.5 + (share - 0.5) * 0.9}),),
                symptoms=(Symptom("s", "Slow"), Symptom("t", "Quick")),
                looks=(Look("s", "slow", "1", "?", seconds), Look("t", "quick", "2", "?", 60)),
            )
            for name, share in (("a", 0.9), ("b", 0.1))
        )

    quick, slow = made(60), made(600)
    assert [quick.observations[q.observation].text for q in [ask(quick)] if q] == ["Slow"]
    assert [slow.observations[q.observation].text for q in [ask(slow)] if q] == ["Quick"]


def test_a_single_fault_leaves_nothing_to_ask() -> None:
    only = Fault(
        id="a",
        title="A",
        times=1,
        times_counted=False,
        causes=(Cause("", 1, 0, None),),
        symptoms=(Symptom("s", "S"),),
        codes=(Code("panel", "1", True, "", "Panel"),),
    )
    assert ask(model_of([only])) is None


def test_the_room_is_asked_for_its_codes_and_symptoms() -> None:
    assert {name_of(ask(ROOM)), name_of(ask(ROOM, {place(ROOM, "room-panel:RM 51"): False}))} <= {
        one.name for one in ROOM.observations if one.may_be_asked
    }
