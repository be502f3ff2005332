"""Words for which a glossary has another: found wherever they stand for the term and are no part of one."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

_NOTHING = r"(?!)"


class OtherWord(NamedTuple):
    """A word that stands in a text although a term exists for it: its place, itself and the terms."""

    start: int
    end: int
    word: str
    terms: tuple[str, ...]


@dataclass(frozen=True)
class Terms:
    """What a glossary asks for: the terms for each other word in small letters.

    ``pattern`` finds terms and other words alike, the longest first, so that a word inside a term is passed over.
    """

    terms_for: Mapping[str, tuple[str, ...]]
    pattern: re.Pattern[str]

    def may_occur(self, lowered: str) -> bool:
        """Tell in a moment whether looking through a text in small letters can find anything."""
        return any(word in lowered for word in self.terms_for)

    def find(self, text: str) -> Iterator[OtherWord]:
        """Find every other word in a text of one line."""
        for match in self.pattern.finditer(text):
            terms = self.terms_for.get((match["phrase"] or "").lower())
            if terms:
                yield OtherWord(match.start(), match.end(), match[0], terms)


def terms_of(glossary: Iterable[tuple[str, Iterable[str]]]) -> Terms:
    """Make the pattern of a glossary of terms, each with the other words for it."""
    entries = [(term, [_even(word) for word in also]) for term, also in glossary]
    terms = {_even(term) for term, _ in entries}
    terms_for: dict[str, list[str]] = {}
    for term, also in entries:
        for word in also:
            if word and word not in terms:
                terms_for.setdefault(word, []).append(term)
    frozen = {word: tuple(dict.fromkeys(of)) for word, of in terms_for.items()}
    return Terms(frozen, _pattern(terms - {""} | frozen.keys()))


def _pattern(phrases: set[str]) -> re.Pattern[str]:
    longest_first = sorted(phrases, key=lambda phrase: (-len(phrase), phrase))
    choices = "|".join(map(re.escape, longest_first)) or _NOTHING
    return re.compile(rf"\{{[^{{}}]*\}}|(?<![\w-])(?P<phrase>{choices})(?:e?s)?(?![\w-])", re.IGNORECASE)


def _even(phrase: str) -> str:
    return " ".join(phrase.lower().split())
