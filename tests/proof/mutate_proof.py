"""Defects in how the absence of energy is shown, and in what is confirmed before it comes back."""

from __future__ import annotations

from collections.abc import Iterator

from tests.proof.edits import less
from tests.proof.scope import Edit, Mutator, Scope, instead
from tests.proof.tables import Data
from tests.proof.units import split

MEANS = ("voltage-test", "gauge", "thermometer", "try-to-start", "look")
OTHER_UNIT = {"V": "kV", "bar": "K", "°C": "kg"}


def _other_means(scope: Scope) -> Iterator[Edit]:
    for step in scope.acting("prove"):
        for means in MEANS:
            if means != step["by"]:
                yield instead(scope, step, {**step, "by": means})


def _tester_not_proved(scope: Scope) -> Iterator[Edit]:
    for step in _with(scope, "tester-proved"):
        yield instead(scope, step, less(step, "tester-proved"))
        yield instead(scope, step, {**step, "tester-proved": "before"})


def _raised_limit(scope: Scope) -> Iterator[Edit]:
    for step in _with(scope, "below"):
        number, unit = split(step["below"])
        yield instead(scope, step, {**step, "below": f"{number * 5:g} {unit}"})


def _limit_in_other_unit(scope: Scope) -> Iterator[Edit]:
    for step in _with(scope, "below"):
        number, unit = split(step["below"])
        if unit in OTHER_UNIT:
            yield instead(scope, step, {**step, "below": f"{number:g} {OTHER_UNIT[unit]}"})


def _no_limit(scope: Scope) -> Iterator[Edit]:
    for step in _with(scope, "below"):
        yield instead(scope, step, less(step, "below"))


def _with(scope: Scope, key: str) -> Iterator[Data]:
    return (step for step in scope.acting("prove") if key in step)


def _trust_failed_proof(scope: Scope) -> Iterator[Edit]:
    for step in scope.acting("prove"):
        yield instead(scope, step, {**step, "not-proved": step.get("go", "next")})


def _trust_failed_run(scope: Scope) -> Iterator[Edit]:
    """Every outcome of a sequence leads on as if all had gone well."""
    for step in scope.acting("run"):
        good, *others = step["outcomes"]
        if others:
            yield instead(scope, step, {**step, "outcomes": dict.fromkeys(step["outcomes"], step["outcomes"][good])})


def _drop_confirmation(scope: Scope) -> Iterator[Edit]:
    for step in scope.acting("energise"):
        for item in step["confirm"]:
            yield instead(scope, step, {**step, "confirm": [one for one in step["confirm"] if one != item]})


MUTATORS: dict[str, Mutator] = {
    "proof by other means": _other_means,
    "tester not proved": _tester_not_proved,
    "raised limit of a proof": _raised_limit,
    "limit of a proof in another unit": _limit_in_other_unit,
    "no limit of a proof": _no_limit,
    "trust a failed proof": _trust_failed_proof,
    "trust a failed sequence": _trust_failed_run,
    "drop confirmation": _drop_confirmation,
}
