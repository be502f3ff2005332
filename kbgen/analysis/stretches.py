"""Intervals of numbers, and the stretches into which they cut a range; exact about which ends are included."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple


class Cut(NamedTuple):
    """A place between numbers: just before a number, or just after it."""

    number: float
    after: bool


class Interval(NamedTuple):
    """All numbers between two cuts; none if the end does not lie behind the start."""

    start: Cut
    end: Cut

    @property
    def is_empty(self) -> bool:
        """Tell whether no number lies between the cuts."""
        return self.start >= self.end


class Stretch(NamedTuple):
    """A stretch of a range, and which of the intervals hold all of it, by their places in the list."""

    interval: Interval
    holders: tuple[int, ...]


LOWEST, HIGHEST = Cut(-math.inf, False), Cut(math.inf, True)


def from_here(number: float) -> Cut:
    """The start of an interval that includes the number."""
    return Cut(number, False)


def above(number: float) -> Cut:
    """The start of an interval that does not include the number."""
    return Cut(number, True)


def up_to(number: float) -> Cut:
    """The end of an interval that includes the number."""
    return Cut(number, True)


def below(number: float) -> Cut:
    """The end of an interval that does not include the number."""
    return Cut(number, False)


def stretches(whole: Interval, intervals: Sequence[Interval]) -> list[Stretch]:
    """Cut a range where one of the intervals starts or ends; each stretch has the same holders throughout."""
    inside = {cut for interval in intervals for cut in interval if whole.start < cut < whole.end}
    found: list[Stretch] = []
    for start, end in pairwise(sorted({*whole, *inside})):
        holders = tuple(place for place, one in enumerate(intervals) if one.start <= start and end <= one.end)
        if found and found[-1].holders == holders:
            start = found.pop().interval.start
        found.append(Stretch(Interval(start, end), holders))
    return found


def told(interval: Interval, unit: str) -> str:
    """Tell an interval in words: ``10 V to 12 V``, ``above 10 V up to 12 V``, ``exactly 20 mm``."""
    (low, leaves_low_out), (high, takes_high_in) = interval
    first, last = with_unit(low, unit), with_unit(high, unit)
    if low == high:
        return f"exactly {first}"
    if leaves_low_out:
        return f"above {first} up to {last}" if takes_high_in else f"between {first} and {last}"
    return f"{first} to {last}" if takes_high_in else f"{first} to below {last}"


def with_unit(number: float, unit: str) -> str:
    """Write a number as an author would, with its unit."""
    digits = f"{number + 0.0:.12g}"
    return f"{digits} {unit}" if unit else digits
