"""How sure a probability is: on how many closed jobs it rests, and between which bounds it lies."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from kbgen.narrowing.assumed import JUDGED_CASES, NORMAL_QUANTILE
from kbgen.narrowing.fault import Fault
from kbgen.narrowing.model import Model
from kbgen.narrowing.posterior import Answers, Posterior

_ALMOST_ONE = 1 - 1e-12


@dataclass(frozen=True)
class Range:
    """Bounds of a probability; nine in ten of such ranges hold the true one."""

    low: float
    high: float


@dataclass(frozen=True)
class Grounds:
    """What the chances of the answers rest on, for one fault."""

    given: int
    assumed: int


def cases_of_weights(fault: Fault) -> float:
    """Closed jobs behind the weights of the causes of a fault; a judgement counts as `JUDGED_CASES`."""
    return max(float(sum(cause.cases for cause in fault.causes)), JUDGED_CASES)


def cases_of_times(fault: Fault) -> float:
    """Closed jobs behind how often a fault comes up, which are those of its causes where it was counted at all."""
    return cases_of_weights(fault) if fault.times_counted else JUDGED_CASES


def effective_cases(chances: Sequence[float], cases: Sequence[float]) -> float:
    """On how many cases a set of chances rests, each of which rests on some of its own.

    The effective size of a sample whose parts count unequally, (sum of w)^2 / sum of w^2 / n (Kish, Survey Sampling,
    1965, 11.2): all cases where the chances are in proportion to them, those of one fault where that one is sure.
    """
    return 1 / sum(chance * chance / own for chance, own in zip(chances, cases, strict=True))


def counted_share(model: Model, known: Posterior) -> float:
    """The part of the belief that lies on causes whose weights come from closed jobs."""
    return sum(
        chance
        for fault, causes in zip(model.faults, known.belief, strict=True)
        for cause, chance in zip(fault.causes, causes, strict=True)
        if cause.cases
    )


def range_of(before: float, after: float, cases: float) -> Range:
    """Between which bounds the chance of a fault lies when its share of all faults rests on so many cases.

    The share before any answer gets a 90 % score interval (Wilson 1927); both bounds are then taken through the
    answers by their Bayes factor, which is held to be right. So the range says nothing of the chances of symptoms.
    """
    if before >= _ALMOST_ONE:
        return Range(after, after)
    low, high = score_interval(before, cases)
    factor = _odds(after) / _odds(before)
    return Range(min(_chance(factor * _odds(low)), after), max(_chance(factor * _odds(high)), after))


def score_interval(share: float, cases: float) -> tuple[float, float]:
    """Wilson's score interval at 90 %."""
    square = NORMAL_QUANTILE * NORMAL_QUANTILE
    middle = share + square / (2 * cases)
    half = NORMAL_QUANTILE * math.sqrt(share * (1 - share) / cases + square / (4 * cases * cases))
    whole = 1 + square / cases
    return max((middle - half) / whole, 0.0), min((middle + half) / whole, 1.0)


def grounds_of(model: Model, answers: Answers, fault: int) -> Grounds:
    """For how many answers the author gave the chance with this fault, and for how many it was assumed."""
    given = sum(
        any(one.given and one.fault == fault for one in model.observations[number].chances) for number in answers
    )
    return Grounds(given, len(answers) - given)


def _odds(chance: float) -> float:
    chance = min(chance, _ALMOST_ONE)
    return chance / (1 - chance)


def _chance(odds: float) -> float:
    return odds / (1 + odds)
