"""Which question tells most about the fault for the time it takes."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator
from dataclasses import dataclass

from kbgen.narrowing.assumed import BITS_WORTH_ASKING
from kbgen.narrowing.model import Model, Observation
from kbgen.narrowing.posterior import Answers, Belief, Posterior, chance_of, updated
from kbgen.narrowing.rounding import steps


@dataclass(frozen=True)
class Outlook:
    """The fault that leads after an answer, and how likely it is then."""

    fault: int
    chance: float


@dataclass(frozen=True)
class Question:
    """A question worth asking: ``bits`` is what its answer tells on average, ``seconds`` the time it takes."""

    observation: int
    bits: float
    seconds: int
    if_there: Outlook
    if_not: Outlook


def next_question(
    model: Model, known: Posterior, answers: Answers, passed_over: Collection[int] = ()
) -> Question | None:
    """The open question that tells most per minute; None where none is worth the time.

    Only what can be seen from outside at the machine as it stands is proposed, whatever it would tell.
    """
    best = max(_rated(model, known, {*answers, *passed_over}), default=None)
    if best is None:
        return None
    number = -best[1]
    observation = model.observations[number]
    return Question(
        number,
        information(observation, known),
        observation.seconds,
        _outlook(known.belief, observation, True),
        _outlook(known.belief, observation, False),
    )


def _rated(model: Model, known: Posterior, without: Collection[int]) -> Iterator[tuple[int, int]]:
    for number, observation in enumerate(model.observations):
        if observation.may_be_asked and number not in without:
            bits = information(observation, known)
            if bits >= BITS_WORTH_ASKING:
                yield steps(60 * bits / observation.seconds), -number


def information(observation: Observation, known: Posterior) -> float:
    """The mutual information of fault and observation in bits: how much less is open after the answer, on average.

    I(F;O) = h(P(o)) - sum over the faults of P(f) h(P(o|f)), Cover and Thomas, Elements of Information Theory, 2.4.
    """
    left, rest = 0.0, 1.0
    for one in observation.chances:
        fault = known.faults[one.fault]
        rest -= fault
        if fault > 0:
            there = sum(a * b for a, b in zip(known.belief[one.fault], one.by_cause, strict=True))
            left += fault * entropy(there / fault)
    left += max(rest, 0.0) * entropy(observation.otherwise)
    return max(entropy(chance_of(observation, known.belief)) - left, 0.0)


def entropy(chance: float) -> float:
    """The entropy of yes or no in bits."""
    if chance <= 0 or chance >= 1:
        return 0.0
    return -chance * math.log2(chance) - (1 - chance) * math.log2(1 - chance)


def _outlook(belief: Belief, observation: Observation, is_there: bool) -> Outlook:
    after = updated(belief, observation, is_there)
    chances = [sum(causes) for causes in after]
    leading = max(range(len(chances)), key=lambda fault: (steps(chances[fault]), -fault))
    return Outlook(leading, chances[leading])
