"""Stretches of time: the whole and what of it is waiting, and how they are said."""

from __future__ import annotations

from typing import NamedTuple

_UNITS = ((86400, "d"), (3600, "h"), (60, "min"), (1, "s"))
_FINE = 600


class Spent(NamedTuple):
    """A stretch of time in seconds. Of two that are equally long, the one with more waiting counts as the longer."""

    whole: int = 0
    waiting: int = 0

    @property
    def working(self) -> int:
        """What is not waiting."""
        return self.whole - self.waiting

    def plus(self, other: Spent) -> Spent:
        """One after the other."""
        return Spent(self.whole + other.whole, self.waiting + other.waiting)


def in_words(seconds: int) -> str:
    """A time to the second, in the units of the format: ``1 h 30 min``."""
    parts = []
    for size, unit in _UNITS:
        number, seconds = divmod(seconds, size)
        if number:
            parts.append(f"{number} {unit}")
    return " ".join(parts) or "0 min"


def about(seconds: int) -> str:
    """A time for people: from ten minutes on to the nearest minute, halves upwards."""
    return in_words(seconds if seconds < _FINE else (seconds + 30) // 60 * 60)
