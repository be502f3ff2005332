"""Alarm codes: the keys a code is filed under, and the keys a query asks for. codes.js does the same.

A key keeps the letters and the numbers of a code and nothing else: the case, the separators and the leading zeros that
people type differently are gone. A channel or unit after "/" or "#" belongs to the alarm of the base code.
"""

import re
from dataclasses import dataclass
from typing import NamedTuple

from kbgen.search.normalise import ALNUM, composed, fold, singular
from kbgen.search.tables import ABOUT_CODES, ALIKE, CHANNEL

LONGEST = 6
"""A query is searched for codes of at most this many separate pieces."""

MARK = "~"
"""Stands before a key in which letters are exchanged for the digits that look like them."""

_CHUNK = re.compile(f"{ALNUM}+")
_RUN = re.compile(f"[0-9]+|(?:(?![0-9]){ALNUM})+")
_LONG_ENOUGH = 4
"""Beside other words, a shorter piece is not taken for a code with mistaken characters."""

_LETTERS_ENOUGH = 2
"""Letters alone may be a code with mistaken characters if nothing else and at least so many are typed."""

_BEFORE_CHANNEL = re.compile("[/#]")
_TIGHT = re.compile("[-.:]")
_AMOUNT = re.compile("[0-9]+[a-z]+")
_ALIKE = str.maketrans(dict(ALIKE))


@dataclass(frozen=True)
class CodeKeys:
    """`full` keys hold all of the code; `part` keys begin with its first number, as in "12b" for F12b.

    `digits` keys leave the other letters out as well. `alike` keys hold all of the code with letters exchanged for
    digits, where there are such letters. No key is in two of the first three.
    """

    full: frozenset[str]
    part: frozenset[str]
    digits: frozenset[str]
    alike: frozenset[str]


class Candidate(NamedTuple):
    """A stretch of a query (places as in `Word`) that may be a code, and the keys to look for.

    `alike`: keys to look for as well if characters were mistaken for each other. `mixed`: it holds letters and digits,
    so that it is hardly a plain word. `whole`: nothing else was asked, or only further codes. `attached`: it follows
    what may be a code so closely that it may be its channel.
    """

    start: int
    end: int
    keys: tuple[str, ...]
    alike: tuple[str, ...]
    mixed: bool
    whole: bool
    attached: bool


class _Chunk(NamedTuple):
    start: int
    end: int
    runs: list[str]
    gap: str

    @property
    def folded(self) -> str:
        return "".join(self.runs)

    @property
    def has_digit(self) -> bool:
        return any(map(_is_number, self.runs))

    @property
    def names_channel(self) -> bool:
        return self.folded in CHANNEL


def base(code: str) -> str:
    """Return the code without its channel or unit: "K-214" for "K-214/2"."""
    parts = [part.strip() for part in _BEFORE_CHANNEL.split(code)]
    return next((part for part in parts if part), "")


def raw(code: str) -> str:
    """Return all letters and digits of the base of a code, in lower case."""
    return "".join(_runs(base(code)))


def keys(code: str) -> CodeKeys:
    """Return all keys under which a stored code is found."""
    runs = _runs(base(code))
    full, text = _spellings(runs), "".join(runs)
    alike = _alike_spellings(text) if text.translate(_ALIKE) != text else ()
    part, digits = _partial(runs)
    return CodeKeys(full, part - full, digits - part - full, frozenset(MARK + key for key in alike))


def candidates(text: str) -> tuple[Candidate, ...]:
    """Return every stretch of a query that may be a code, the longest first.

    A number after one or two letters ("E 07") is never taken by itself: it would lead to F-07 as well.
    """
    chunks = _chunks(composed(text))
    found = [
        _candidate(chunks, first, last)
        for first in range(len(chunks))
        if first == 0 or not _is_prefix(chunks[first - 1]) or not _is_number(chunks[first].runs[0])
        for last in range(first + 1, min(first + LONGEST, len(chunks)) + 1)
        if not any(_BEFORE_CHANNEL.search(chunk.gap) for chunk in chunks[first + 1 : last])
    ]
    return tuple(sorted(found, key=lambda c: (c.start - c.end, c.start)))


def beginnings(text: str) -> tuple[str, ...]:
    """Return what the keys of a code begin with when the text is the first part of that code, still being typed."""
    runs = _runs(text)
    if not any(map(_is_number, runs)):
        return ()
    while runs and _is_number(runs[-1]) and not runs[-1].strip("0"):
        runs = runs[:-1]
    return tuple(sorted(_spellings(runs)))


def _chunks(text: str) -> list[_Chunk]:
    found: list[_Chunk] = []
    at = 0
    for match in _CHUNK.finditer(text):
        found.append(_Chunk(match.start(), match.end(), _runs(match.group()), text[at : match.start()]))
        at = match.end()
    return found


def _candidate(chunks: list[_Chunk], first: int, last: int) -> Candidate:
    inside = chunks[first:last]
    runs = [run for chunk in inside for run in chunk.runs]
    mixed = len({_is_number(run) for run in runs}) == 2
    attached = first > 0 and _is_attached(chunks[first - 1], chunks[first])
    whole = not attached and all(_is_aside(chunks, place) for place in (*range(first), *range(last, len(chunks))))
    alone = len(chunks) == 1 and len(inside[0].folded) >= _LETTERS_ENOUGH
    alike = _alike(inside, whole) if alone or any(map(_is_number, runs)) else frozenset()
    start, end = inside[0].start, inside[-1].end
    return Candidate(start, end, tuple(sorted(_spellings(runs))), tuple(sorted(alike)), mixed, whole, attached)


def _is_attached(before: _Chunk, chunk: _Chunk) -> bool:
    tight = bool(_TIGHT.fullmatch(chunk.gap) or _BEFORE_CHANNEL.fullmatch(chunk.gap.strip()))
    return before.names_channel or (before.has_digit and tight)


def _is_aside(chunks: list[_Chunk], place: int) -> bool:
    """Tell whether a piece beside a code asks for nothing more: a word about codes, another code, a channel."""
    chunk = chunks[place]
    letters_of_code = _is_prefix(chunk) and place + 1 < len(chunks) and chunks[place + 1].has_digit
    about = singular(chunk.folded) in ABOUT_CODES or chunk.names_channel
    return chunk.has_digit or letters_of_code or about or bool(_BEFORE_CHANNEL.search(chunk.gap))


def _alike(inside: list[_Chunk], whole: bool) -> frozenset[str]:
    """Keys with letters exchanged for digits; not for what may be an amount with its unit, as in "10 l"."""
    text = "".join(chunk.folded for chunk in inside)
    if not whole and (len(inside) > 1 or len(text) < _LONG_ENOUGH or _AMOUNT.fullmatch(text)):
        return frozenset()
    found = _alike_spellings(text)
    return found | {MARK + key for key in found}


def _alike_spellings(text: str) -> frozenset[str]:
    return _spellings(_RUN.findall(text.translate(_ALIKE)))


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
    apart = "".join(_plain_number(run) if _is_number(run) else run for run in _apart(runs))
    together = re.sub("(?<![0-9])0+(?=[0-9])", "", "".join(runs))
    found = frozenset({apart, together})
    zeros_first = len(runs) > 1 and _is_number(runs[0]) and not runs[0].strip("0")
    return found | _spellings(runs[1:]) if zeros_first else found


def _apart(runs: list[str]) -> list[str]:
    """Put a point between numbers that follow each other."""
    separated = runs[:1]
    for before, run in zip(runs, runs[1:], strict=False):
        separated += [".", run] if _is_number(before) and _is_number(run) else [run]
    return separated


def _plain_number(digits: str) -> str:
    return digits.lstrip("0") or "0"


def _partial(runs: list[str]) -> tuple[frozenset[str], frozenset[str]]:
    """Keys of all from the first number on, and of the numbers alone."""
    numbers = [run for run in runs if _is_number(run)]
    if not numbers or len(numbers) == len(runs):
        return frozenset(), frozenset()
    return _spellings(runs[runs.index(numbers[0]) :]), _spellings(numbers)
