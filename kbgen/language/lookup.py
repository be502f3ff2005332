"""Find fast what stands in many texts: which words occur at all, and in which of the texts something stands."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import Generic, TypeVar

T = TypeVar("T", bound=str)

_PARTING = bytes(byte if byte < 128 and chr(byte).isalnum() else 32 for byte in range(256))


def tokens(text: str) -> Sequence[bytes]:
    """The words of a text in small letters, parted at whatever is no letter or digit of ASCII."""
    return text.lower().encode().translate(_PARTING).split()


@dataclass(frozen=True)
class Lookup(Generic[T]):
    """Texts, all of them in one as they are searched, and where each begins in it."""

    texts: Sequence[T]
    whole: str
    starts: Sequence[int]

    def containing(self, pieces: Iterable[str]) -> list[T]:
        """The texts in which at least one of some pieces stands; a piece has no line break in it."""
        found = set()
        find, starts = self.whole.find, self.starts
        for piece in pieces:
            at = find(piece)
            while at >= 0:
                found.add(bisect_right(starts, at) - 1)
                at = find(piece, at + 1)
        return [self.texts[place] for place in sorted(found)]

    def matching(self, pattern: re.Pattern[str]) -> list[T]:
        """The texts in which a pattern matches; it matches no line break."""
        found = {bisect_right(self.starts, match.start()) - 1 for match in pattern.finditer(self.whole)}
        return [self.texts[place] for place in sorted(found)]


def lookup(texts: Sequence[T]) -> Lookup[T]:
    """Prepare texts for pieces that are written just so."""
    return Lookup(texts, "\n".join(texts), _starts(texts))


def lookup_lowered(texts: Sequence[T]) -> Lookup[T]:
    """Prepare texts for pieces in small letters."""
    lowered = [text.lower() for text in texts]
    return Lookup(texts, "\n".join(lowered), _starts(lowered))


def _starts(texts: Sequence[str]) -> Sequence[int]:
    return [0, *accumulate([len(text) + 1 for text in texts])]
