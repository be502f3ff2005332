"""Model and answers -> the faults in order, how sure they are, and the next question."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from kbgen.narrowing.model import Model
from kbgen.narrowing.posterior import Answers, Posterior, posterior
from kbgen.narrowing.question import Question, next_question
from kbgen.narrowing.rounding import steps
from kbgen.narrowing.sureness import (
    Grounds,
    Range,
    cases_of_times,
    cases_of_weights,
    counted_share,
    effective_cases,
    grounds_of,
    range_of,
)
from kbgen.narrowing.wording import in_words


@dataclass(frozen=True)
class Ranked:
    """A fault with its chance, the cause that is most likely if it is this fault, and that cause's share."""

    fault: int
    chance: float
    words: str
    range: Range
    cause: int
    cause_share: float
    grounds: Grounds


@dataclass(frozen=True)
class Narrowed:
    """What can be said after some answers.

    ``cases`` is the effective number of closed jobs behind the weights of the causes, ``counted`` the part of the
    belief that rests on counted weights at all.
    """

    ranking: tuple[Ranked, ...]
    cases: float
    counted: float
    question: Question | None


def narrow(model: Model, answers: Answers, passed_over: Collection[int] = ()) -> Narrowed:
    """Rank the faults of a model that has at least one."""
    known = posterior(model, answers)
    before = tuple(map(sum, model.prior))
    behind_shares = effective_cases(before, list(map(cases_of_times, model.faults)))
    order = sorted(range(len(before)), key=lambda fault: (-steps(known.faults[fault]), fault))
    return Narrowed(
        ranking=tuple(
            _ranked(model, answers, known, fault, range_of(before[fault], known.faults[fault], behind_shares))
            for fault in order
        ),
        cases=effective_cases(known.faults, list(map(cases_of_weights, model.faults))),
        counted=counted_share(model, known),
        question=next_question(model, known, answers, passed_over),
    )


def _ranked(model: Model, answers: Answers, known: Posterior, fault: int, bounds: Range) -> Ranked:
    causes = known.belief[fault]
    chance = known.faults[fault]
    leading = max(range(len(causes)), key=lambda cause: (steps(causes[cause] / (chance or 1)), -cause))
    return Ranked(
        fault=fault,
        chance=chance,
        words=in_words(chance),
        range=bounds,
        cause=leading,
        cause_share=causes[leading] / chance if chance else 0.0,
        grounds=grounds_of(model, answers, fault),
    )
