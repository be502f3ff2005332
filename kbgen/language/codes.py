"""Codes and numbers in a text that have the shape of those in the tables but do not stand there."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

_RUN = re.compile(r"[A-Za-z]+|[0-9]+|[ -]|.", re.DOTALL)
_NOTHING = "(?!)"
_LONG_ENOUGH = 3  # letters and digits; what is shorter, as D5, could be a terminal of anything


@dataclass(frozen=True)
class Codes:
    """The codes of the tables, what else the tables call so, and a pattern that finds all of their shape.

    ``hint`` finds what stands in all of them. It looks for capital letters and dashes only, of which a text has few,
    and so is much faster.
    """

    codes: frozenset[str]
    labels: frozenset[str]
    hint: re.Pattern[str]
    pattern: re.Pattern[str]

    def unknown(self, text: str) -> Iterator[tuple[int, int]]:
        """Find what has the shape of a code and is neither a code nor a label of the tables."""
        for match in _whole(self.pattern, text):
            if match[0] not in self.codes and match[0] not in self.labels:
                yield match.span()


def codes_of(codes: Iterable[str], names: Iterable[str]) -> Codes:
    """Derive the shapes of alarm codes and part numbers; ``names`` are texts of the tables in which labels stand.

    A shape has the letters of the code and as many digits. Two letters and more at its start are told from other words
    also with one digit too many or too few, without the separator behind them or with a wrong one.
    """
    known = frozenset(codes)
    shaped = sorted(one for one in known if _is_shaped(one))
    shapes = sorted({"".join(_shape(one)) for one in shaped}, key=lambda shape: (-len(shape), shape))
    pattern = re.compile("|".join(shapes) or _NOTHING)
    hint = re.compile("|".join(sorted({re.escape(_anchor(one)) for one in shaped})) or _NOTHING)
    labels = frozenset(match[0] for name in names for match in _whole(pattern, name))
    return Codes(known, labels, hint, pattern)


def _whole(pattern: re.Pattern[str], text: str) -> Iterator[re.Match[str]]:
    """Matches that begin behind a blank or a bracket and end before one, or before the separator of a channel."""
    for match in pattern.finditer(text):
        before, after = text[: match.start()][-1:], text[match.end() : match.end() + 1]
        begins = not before or not (before.isalnum() or before in "-–_./{")
        if begins and not (after.isalnum() or after == "_"):
            yield match


def _is_shaped(code: str) -> bool:
    is_long = sum(map(str.isalnum, code)) >= _LONG_ENOUGH
    return is_long and any(map(str.isdigit, code)) and any(map(str.isalpha, code))


def _shape(code: str) -> Iterator[str]:
    runs = _RUN.findall(code)
    is_loose = len(runs[0]) > 1 and runs[0].isalpha()
    for place, run in enumerate(runs):
        if run.isdigit():
            digits = rf"\d{{{max(1, len(run) - 1)},{len(run) + 1}}}" if is_loose else rf"\d{{{len(run)}}}"
            yield f"[ -]?{digits}" if is_loose and place == 1 else digits
        elif is_loose and place == 1 and run in " -":
            yield "[ -]?"
        else:
            yield re.escape(run)


def _anchor(code: str) -> str:
    """The longest piece of a code that stands in everything of its shape."""
    runs = _RUN.findall(code)
    if len(runs[0]) > 1 and runs[0].isalpha():
        return str(runs[0])
    return max(re.split(r"[0-9]+", code), key=len)
