"""How long a procedure takes: the shortest, the longest and the expected time to each outcome, and whom it binds."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from kbgen.analysis.chances import chances
from kbgen.analysis.expect import Expected, Mean, expect
from kbgen.analysis.extremes import Extremes, extremes
from kbgen.analysis.persons import persons
from kbgen.analysis.spent import Spent
from kbgen.analysis.unwind import TooManySituationsError, unwind
from kbgen.model.procedure import Procedure
from kbgen.model.steps import Finish, Wait
from kbgen.route.route import Place, Route
from kbgen.route.unfold import Walk


@dataclass(frozen=True)
class JobTime:
    """How long a job takes; ``expected`` is an estimate, None where the estimate has no such job."""

    shortest: Spent
    expected: Spent | None
    longest: Spent


@dataclass(frozen=True)
class OutcomeTime(JobTime):
    """How long it takes to an outcome; ``share`` is the estimated chance that a job ends there."""

    place: Place
    end: Finish
    share: float


@dataclass(frozen=True)
class PersonTime:
    """How long a job binds the persons of a qualification on average, summed over these persons."""

    qualification: str
    persons: int
    spent: Spent


@dataclass(frozen=True)
class Times:
    """The times of a procedure; ``unstated`` are the numbers of the steps without a time, which count as none."""

    whole: JobTime
    outcomes: tuple[OutcomeTime, ...]
    persons: tuple[PersonTime, ...]
    unstated: tuple[str, ...]


def times(procedure: Procedure, route: Route, walk: Walk) -> Times | None:
    """Work out the times of a procedure, in seconds, from its route and the walk that unfolds it.

    The extremes are exact over all paths, whatever their chance: each limited way back is taken from never to as often
    as its limit allows, each set-up is done once where it is first needed, and the steps of shared sequences count.
    Expected times are an estimate: ``replies`` says what is reckoned with, weights of causes are chances, and a repair
    removes its cause with the certainty that is stated there. None where a loop has no limit, where a path ends without
    an outcome, and where there are more than MOST_SITUATIONS situations.
    """
    try:
        unwound = unwind(walk, {str(one.id): one.takes.seconds for one in procedure.set_ups})
    except TooManySituationsError:
        return None
    if unwound is None or not procedure.causes:
        return None
    bounds = extremes(unwound)
    expected = expect(unwound, chances(procedure, walk))
    outcomes = tuple(
        _outcome(place, place.step, bounds[place.key], expected.until[place.key])
        for place in walk.places.values()
        if isinstance(place.step, Finish) and place.key in bounds
    )
    return Times(
        whole=_whole(outcomes, expected),
        outcomes=tuple(sorted(outcomes, key=lambda one: -one.share)),
        persons=_person_times(procedure, route, expected),
        unstated=_unstated(walk, bounds),
    )


def _outcome(place: Place, end: Finish, bounds: Extremes, mean: Mean) -> OutcomeTime:
    return OutcomeTime(bounds.shortest, _per_job(mean), bounds.longest, place, end, mean.chance)


def _whole(outcomes: tuple[OutcomeTime, ...], expected: Expected) -> JobTime:
    means = expected.until.values()
    whole = Mean(*(sum(getattr(one, name) for one in means) for name in ("chance", "whole", "waiting")))
    return JobTime(
        shortest=min(one.shortest for one in outcomes),
        expected=_per_job(whole),
        longest=max(one.longest for one in outcomes),
    )


def _per_job(mean: Mean) -> Spent | None:
    if not mean.chance:
        return None
    return Spent(_rounded(mean.whole / mean.chance), _rounded(mean.waiting / mean.chance))


def _person_times(procedure: Procedure, route: Route, expected: Expected) -> tuple[PersonTime, ...]:
    bound: dict[str, tuple[int, float, float]] = {}
    who = persons(procedure, route)
    for key, mean in expected.at.items():
        for name, count in who[key].items():
            most, whole, waiting = bound.get(name, (0, 0.0, 0.0))
            bound[name] = (max(most, count), whole + count * mean.whole, waiting + count * mean.waiting)
    return tuple(
        PersonTime(name, count, Spent(_rounded(whole), _rounded(waiting)))
        for name, (count, whole, waiting) in sorted(bound.items())
    )


def _unstated(walk: Walk, bounds: Mapping[str, Extremes]) -> tuple[str, ...]:
    return tuple(
        place.number
        for key, place in walk.places.items()
        if key in bounds and place.step.takes is None and not isinstance(place.step, (Finish, Wait))
    )


def _rounded(seconds: float) -> int:
    """To the nearest second, halves upwards."""
    return math.floor(seconds + 0.5)
