"""Alarm codes: the keys a code is filed under, and the keys a query asks for. codes.js does the same.

A key keeps the letters and the numbers of a code and nothing else: the case, the separators and the leading zeros that
people type differently are gone. A channel or unit after "/" or "#" belongs to the alarm of the base code.
"""

import re
from dataclasses import dataclass
from typing import NamedTuple

from kbgen.search.normalise import ALNUM, composed, fold

LONGEST = 6
"""A query is searched for codes of at most this many separate pieces."""

_CHUNK = re.compile(f"{ALNUM}+")
_RUN = re.compile(f"[0-9]+|(?:(?![0-9]){ALNUM})+")
_CHANNEL = re.compile("[/#]")


@dataclass(frozen=True)
class CodeKeys:
    """`full` keys hold all of the code; `part` keys leave letters out, as in "07" for E-07."""

    full: frozenset[str]
    part: frozenset[str]


class Candidate(NamedTuple):
    """A stretch of a query (places as in `Word`) that may be a code, and the keys to look for.

    `mixed`: it holds letters and digits, so that it is hardly a plain word. `whole`: nothing else was asked.
    """

    start: int
    end: int
    keys: tuple[str, ...]
    mixed: bool
    whole: bool


class _Chunk(NamedTuple):
    start: int
    end: int
    runs: list[str]


def base(code: str) -> str:
    """Return the code without its channel or unit: "K-214" for "K-214/2"."""
    parts = [part.strip() for part in _CHANNEL.split(code)]
    return next((part for part in parts if part), "")


def keys(code: str) -> CodeKeys:
    """Return all keys under which a stored code is found."""
    runs = _runs(base(code))
    full = _spellings(runs)
    return CodeKeys(full=full, part=_partial(runs) - full)


def candidates(text: str) -> tuple[Candidate, ...]:
    """Return every stretch of a query that may be a code, the longest first.

    A number after one or two letters ("E 07") is never taken by itself: it would lead to F-07 as well.
    """
    chunks = [_Chunk(m.start(), m.end(), _runs(m.group())) for m in _CHUNK.finditer(composed(text))]
    root_size = len(_CHUNK.findall(composed(base(text))))
    found = [
        _candidate(chunks[first:last], whole=first == 0 and last in (root_size, len(chunks)))
        for first in range(len(chunks))
        if first == 0 or not _is_prefix(chunks[first - 1]) or not _is_number(chunks[first].runs[0])
        for last in range(first + 1, min(first + LONGEST, len(chunks)) + 1)
    ]
    return tuple(sorted(found, key=lambda c: (c.start - c.end, c.start)))


def beginnings(text: str) -> tuple[str, ...]:
    """Return what the keys of a code begin with when the text is the first part of that code, still being typed."""
    runs = _runs(text)
    if not any(_is_number(run) for run in runs):
        return ()
    while runs and _is_number(runs[-1]) and not runs[-1].strip("0"):
        runs = runs[:-1]
    return tuple(sorted(_spellings(runs)))


def _candidate(chunks: list[_Chunk], whole: bool) -> Candidate:
    runs = [run for chunk in chunks for run in chunk.runs]
    mixed = len({_is_number(run) for run in runs}) == 2
    return Candidate(chunks[0].start, chunks[-1].end, tuple(sorted(_spellings(runs))), mixed, whole)


def _is_prefix(chunk: _Chunk) -> bool:
    return len(chunk.runs) == 1 and not _is_number(chunk.runs[0]) and len(chunk.runs[0]) <= 2


def _runs(text: str) -> list[str]:
    return [run for chunk in _CHUNK.findall(composed(text)) for run in _RUN.findall(fold(chunk))]


def _is_number(run: str) -> bool:
    return run[0] in "0123456789"


def _spellings(runs: list[str]) -> frozenset[str]:
    """Keys of the same runs: numbers kept apart, numbers run together, and without zeros before the first letter."""
    if not runs:
        return frozenset()
    apart = "".join(_plain_number(run) if _is_number(run) else run for run in _separated(runs))
    together = re.sub("(?<![0-9])0+(?=[0-9])", "", "".join(runs))
    found = frozenset({apart, together})
    zeros_first = len(runs) > 1 and _is_number(runs[0]) and not runs[0].strip("0")
    return found | _spellings(runs[1:]) if zeros_first else found


def _separated(runs: list[str]) -> list[str]:
    """Put a point between numbers that follow each other."""
    separated = runs[:1]
    for before, run in zip(runs, runs[1:], strict=False):
        separated += [".", run] if _is_number(before) and _is_number(run) else [run]
    return separated


def _plain_number(digits: str) -> str:
    return digits.lstrip("0") or "0"


def _partial(runs: list[str]) -> frozenset[str]:
    numbers = [run for run in runs if _is_number(run)]
    if not numbers or len(numbers) == len(runs):
        return frozenset()
    return _spellings(runs[runs.index(numbers[0]) :]) | _spellings(numbers)
