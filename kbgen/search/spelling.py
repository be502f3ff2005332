"""Which known words a word may be a slip for. spelling.js does the same.

A slip is a letter added, lost, exchanged or swapped with its neighbour: the restricted edit distance of Damerau and
Levenshtein (F. J. Damerau, Commun. ACM 7, 1964, p. 171; V. I. Levenshtein, Sov. Phys. Dokl. 10, 1966, p. 707).
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

SHORTEST = 3
"""Shorter words are not corrected: too many other words are one slip away."""

_TWO, _THREE = 6, 10
"""Words of so many letters may hold two and three slips."""


@dataclass(frozen=True)
class Correction:
    """A known word, and the slips that lead to it."""

    word: str
    slips: int


def allowed(word: str) -> int:
    """Return how many slips a word may hold; none if it is short or has digits."""
    if len(word) < SHORTEST or any(c in "0123456789" for c in word):
        return 0
    return 1 + (len(word) >= _TWO) + (len(word) >= _THREE)


def slips(typed: str, known: str, most: int, begun: bool = False) -> int:
    """Return the slips between two words, `most` + 1 if there are more; `begun`: from any beginning of `known`.

    Only the cells of the table that `most` slips can reach are filled in.
    """
    beyond = most + 1
    before: list[int] = []
    row = [min(place, beyond) for place in range(len(known) + 1)]
    for at, letter in enumerate(typed, start=1):
        first, last = max(1, at - most), min(len(known), at + most)
        above, row = row, [beyond] * (len(known) + 1)
        if at <= most:
            row[0] = at
        for place in range(first, last + 1):
            other = known[place - 1]
            cost = min(above[place - 1] + (letter != other), above[place] + 1, row[place - 1] + 1, beyond)
            if at > 1 and place > 1 and letter == known[place - 2] and typed[at - 2] == other:
                cost = min(cost, before[place - 2] + 1)
            row[place] = cost
        before = above
    return min(row) if begun else row[-1]


class Vocabulary:
    """Known words, searched in time that grows with their number."""

    def __init__(self, words: Iterable[str]) -> None:
        self.words: tuple[str, ...] = tuple(sorted(words))

    @cached_property
    def _by_length(self) -> Mapping[int, list[tuple[str, int]]]:
        found: dict[int, list[tuple[str, int]]] = {}
        for word in self.words:
            found.setdefault(len(word), []).append((word, _letters(word)))
        return found

    def corrections(self, word: str, most: int, unfinished: bool) -> tuple[Correction, ...]:
        """Return the known words at most so many slips away, sorted, but none with two slips more than the nearest.

        If the word is unfinished, slips to a beginning of a known word count as well.
        """
        if not most:
            return ()
        longest = max(self._by_length, default=0) if unfinished else len(word) + most
        own = _letters(word)
        found = []
        for length in range(max(1, len(word) - most), longest + 1):
            for known, letters in self._by_length.get(length, ()):
                lost, added = (own & ~letters).bit_count(), (letters & ~own).bit_count()
                if lost <= most and (unfinished or added <= most):
                    distance = slips(word, known, most, unfinished)
                    if distance <= most:
                        found.append(Correction(known, distance))
        fewest = min((one.slips for one in found), default=0)
        return tuple(sorted((one for one in found if one.slips <= fewest + 1), key=lambda one: one.word))


def _letters(word: str) -> int:
    """Return a number with a bit for each letter that the word holds; a slip changes at most one each way."""
    found = 0
    for letter in word:
        found |= 1 << (ord(letter) & 31)
    return found
