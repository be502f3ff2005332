"""Answers -> how likely each cause of each fault is (Bayes' rule over all causes, one of which is there)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from kbgen.narrowing.model import Model, Observation

Answers = Mapping[int, bool]
"""Places of observations -> whether they are there."""

Belief = tuple[tuple[float, ...], ...]
"""For each fault the chance of each of its causes; all of them together are 1."""


@dataclass(frozen=True)
class Posterior:
    """What is believed after the answers."""

    belief: Belief

    @cached_property
    def faults(self) -> tuple[float, ...]:
        """The chance of each fault."""
        return tuple(map(sum, self.belief))


def posterior(model: Model, answers: Answers) -> Posterior:
    """Work out what to believe after some answers. Observations are independent once the cause is known."""
    belief = model.prior
    for number, is_there in sorted(answers.items()):
        belief = updated(belief, model.observations[number], is_there)
    return Posterior(belief)


def updated(belief: Belief, observation: Observation, is_there: bool) -> Belief:
    """Weigh each cause with the answer."""
    otherwise = observation.otherwise if is_there else 1 - observation.otherwise
    named = {one.fault: one.by_cause for one in observation.chances}
    joint = [
        [one * (chance if is_there else 1 - chance) for one, chance in zip(causes, named[fault], strict=True)]
        if fault in named
        else [one * otherwise for one in causes]
        for fault, causes in enumerate(belief)
    ]
    whole = sum(map(sum, joint))
    return tuple(tuple(one / whole for one in causes) for causes in joint)


def chance_of(observation: Observation, belief: Belief) -> float:
    """How likely an observation is."""
    with_named = [(one, belief[one.fault]) for one in observation.chances]
    rest = 1 - sum(sum(causes) for _, causes in with_named)
    return max(rest, 0.0) * observation.otherwise + sum(
        here * chance for one, causes in with_named for here, chance in zip(causes, one.by_cause, strict=True)
    )
