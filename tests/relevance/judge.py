"""How good the answers are, and how sure the figures are."""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from dataclasses import dataclass

from .query import Query

_SURE = 1.959964
"""Two-sided 95 % of the normal distribution."""

_DRAWS = 1000


@dataclass(frozen=True)
class Interval:
    """A figure with its 95 % interval."""

    value: float
    low: float
    high: float


@dataclass(frozen=True)
class Judged:
    """One query: the place of the first right entry (0 if none was found), and whether five places suffice.

    `first` and `in_five` hold what counts as a success: where all right entries are meant, five places must show
    all of them (or nothing else, if there are more than five).
    """

    place: int
    in_five: bool

    @property
    def first(self) -> bool:
        """Tell whether the first entry is right."""
        return self.place == 1


def judge(query: Query, found: Sequence[str]) -> Judged:
    """Judge what was found for a query."""
    place = next((at for at, entry in enumerate(found, start=1) if entry in query.right), 0)
    shown = len(query.right & set(found[:5]))
    wanted = min(len(query.right), 5) if query.all_meant else 1
    return Judged(place, shown >= wanted)


def wilson(successes: int, count: int) -> Interval:
    """Return a proportion with its Wilson score interval (E. B. Wilson, J. Am. Stat. Assoc. 22, 1927, p. 209)."""
    share, spread = successes / count, _SURE**2 / count
    middle = (share + spread / 2) / (1 + spread)
    reach = _SURE * math.sqrt(share * (1 - share) / count + spread / (4 * count)) / (1 + spread)
    return Interval(share, max(0.0, middle - reach), min(1.0, middle + reach))


def reciprocal_rank(judged: Sequence[Judged]) -> Interval:
    """Return the mean of 1 / place with its percentile bootstrap interval (1,000 draws, seeded)."""
    values = [1 / one.place if one.place else 0.0 for one in judged]
    chance = random.Random(len(values))
    means = sorted(sum(chance.choices(values, k=len(values))) / len(values) for _ in range(_DRAWS))
    return Interval(sum(values) / len(values), means[_DRAWS // 40], means[-_DRAWS // 40 - 1])


@dataclass(frozen=True)
class Duel:
    """Queries that only one of two engines answers with a right entry first, and the exact two-sided sign test."""

    wins: int
    losses: int

    @property
    def chance(self) -> float:
        """How likely a difference at least as large is if neither is better."""
        count, fewer = self.wins + self.losses, min(self.wins, self.losses)
        tail = sum(math.comb(count, n) for n in range(fewer + 1))
        return min(1.0, 2 * tail / (1 << count))

    @property
    def verdict(self) -> str:
        """Better, worse or no difference, at 5 %."""
        if self.chance >= 0.05:
            return "no difference"
        return "better" if self.wins > self.losses else "worse"


def duel(ours: Sequence[Judged], theirs: Sequence[Judged]) -> Duel:
    """Compare two engines query by query."""
    pairs = [(one.first, other.first) for one, other in zip(ours, theirs, strict=True)]
    return Duel(pairs.count((True, False)), pairs.count((False, True)))
