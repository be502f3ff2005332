"""The chances of the faults, against a library for Bayesian networks and against cases from outside."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from kbgen.narrowing.fault import Cause, Fault, Symptom
from kbgen.narrowing.model import Model
from kbgen.narrowing.observe import allowing_for_another, model_of
from kbgen.narrowing.posterior import chance_of, posterior, updated
from tests.narrowing.network import faults_after
from tests.narrowing.samples import ROOM, asked, place


def seen_with(*shares: tuple[float, float]) -> Model:
    """Faults of one cause each, given by how often they come up and the chance of the one symptom."""
    return model_of(
        Fault(
            id=f"f{number}",
            title=f"F{number}",
            times=times,
            times_counted=False,
            causes=(Cause("", 1, 0, {"s": chance}),),
            symptoms=(Symptom("s", "Seen"),),
        )
        for number, (times, chance) in enumerate(shares)
    )


@settings(max_examples=60, deadline=None)
@given(given=asked())
def test_chances_are_those_of_a_bayesian_network(given: tuple[Model, dict[int, bool]]) -> None:
    model, answers = given
    assert posterior(model, answers).faults == pytest.approx(faults_after(model, answers), abs=1e-9)


@settings(max_examples=100, deadline=None)
@given(given=asked())
def test_chances_are_those_of_summing_over_everything(given: tuple[Model, dict[int, bool]]) -> None:
    model, answers = given
    joint = [list(causes) for causes in model.prior]
    for number, is_there in answers.items():
        for fault, causes in enumerate(joint):
            for cause in range(len(causes)):
                chance = _chance(model, number, fault, cause)
                causes[cause] *= chance if is_there else 1 - chance
    whole = sum(map(sum, joint))
    for mine, causes in zip(posterior(model, answers).belief, joint, strict=True):
        assert mine == pytest.approx([one / whole for one in causes], abs=1e-12)


def _chance(model: Model, number: int, fault: int, cause: int) -> float:
    observation = model.observations[number]
    return next((one.by_cause[cause] for one in observation.chances if one.fault == fault), observation.otherwise)


def test_a_failed_test_points_to_the_fault_that_fails_it() -> None:
    """Worked out by hand: .30 x .05, .50 x .90, .20 x .50 over their sum .565."""
    model = seen_with((3, 0.05), (5, 0.90), (2, 0.50))
    known = posterior(model, {0: True})
    assert known.faults == pytest.approx([0.015 / 0.565, 0.45 / 0.565, 0.1 / 0.565], abs=1e-12)
    assert known.faults == pytest.approx([0.02655, 0.79646, 0.17699], abs=5e-6)
    assert chance_of(model.observations[0], model.prior) == pytest.approx(0.565)


@pytest.mark.parametrize(
    ("prevalence", "sensitivity", "specificity", "predictive_value"),
    [
        (0.10, 0.80, 0.90, 0.4706),  # worked example of stethoprep.com on predictive values
        (0.01, 0.95, 0.90, 0.0876),  # table 3 of a review at benthamopen.com
        (0.80, 0.90, 0.95, 0.9863),  # worked out by hand: .72 / (.72 + .01)
        (0.05, 0.90, 0.95, 0.4865),  # by hand: .045 / (.045 + .0475); a web page that prints 13.8 % is wrong
    ],
)
def test_a_symptom_has_the_predictive_value_of_a_test(
    prevalence: float, sensitivity: float, specificity: float, predictive_value: float
) -> None:
    model = seen_with((prevalence, sensitivity), (1 - prevalence, 1 - specificity))
    assert posterior(model, {0: True}).faults[0] == pytest.approx(predictive_value, abs=5e-5)


def test_how_likely_a_symptom_is_with_a_fault_is_the_weighted_sum_over_its_causes() -> None:
    iced = next(number for number, fault in enumerate(ROOM.faults) if fault.id == "iced-up")
    white = ROOM.observations[place(ROOM, "iced-up.coil-white")]
    belief = tuple(causes if fault == iced else (0.0,) * len(causes) for fault, causes in enumerate(ROOM.prior))
    whole = sum(map(sum, belief))
    share = sum(a * b for a, b in zip(belief[iced], white.chances[0].by_cause, strict=True)) / whole
    assert share == pytest.approx((3 * 0.9 + 3 * 0.3 + 4 * 0.7) / 10)


def test_symptoms_of_one_cause_belong_together() -> None:
    """Two symptoms of the same cause are likelier together than each by itself would make them."""
    model = model_of(
        [
            Fault(
                id="f",
                title="F",
                times=1,
                times_counted=False,
                causes=(Cause("a", 1, 0, {"s": 0.9, "t": 0.9}), Cause("b", 1, 0, {"s": 0.1, "t": 0.1})),
                symptoms=(Symptom("s", "S"), Symptom("t", "T")),
            )
        ]
    )
    second = chance_of(model.observations[1], updated(model.prior, model.observations[0], True))
    assert second == pytest.approx((0.81 + 0.01) / (0.9 + 0.1))
    assert second > chance_of(model.observations[1], model.prior)


def test_an_undescribed_fault_takes_over_where_nothing_fits() -> None:
    """By hand: shares of 1/2 each; a symptom that is there counts .9 against .05, one that is not .1 against .95."""
    model = allowing_for_another(seen_with((4, 0.9)))
    assert model.prior == ((0.5,), (0.5,))
    assert posterior(model, {0: True}).faults == pytest.approx([0.9 / 0.95, 0.05 / 0.95])
    assert posterior(model, {0: False}).faults == pytest.approx([0.1 / 1.05, 0.95 / 1.05])


def test_many_answers_never_run_out_of_numbers() -> None:
    model = model_of(
        Fault(
            id=f"f{fault}",
            title=f"F{fault}",
            times=1,
            times_counted=False,
            causes=(Cause("c", 1, 0, {f"s{n}": 0 for n in range(400)}),),
            symptoms=tuple(Symptom(f"s{n}", f"S {n}") for n in range(400)),
        )
        for fault in range(2)
    )
    known = posterior(model, dict.fromkeys(range(400), True))
    assert known.faults == pytest.approx([0.5, 0.5])
