"""Words for which a glossary has another: found wherever they stand for the term and are no part of one."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from kbgen.language.lookup import tokens

_NOTHING = r"(?!)"


class OtherWord(NamedTuple):
    """A word that stands in a text although a term exists for it: its place, itself and the terms."""

    start: int
    end: int
    word: str
    terms: tuple[str, ...]


class _Phrase(NamedTuple):
    """Another word, the words in it but the last, and the forms of the last; both are empty without ASCII letters."""

    text: str
    head: frozenset[bytes]
    last: frozenset[bytes]


@dataclass(frozen=True)
class Terms:
    """What a glossary asks for: the terms for each other word in small letters.

    ``pattern`` finds terms and other words alike, the longest first, so that a word inside a term is passed over.
    """

    terms_for: Mapping[str, tuple[str, ...]]
    phrases: Sequence[_Phrase]
    pattern: re.Pattern[str]

    def among(self, words: frozenset[bytes]) -> list[str]:
        """The other words that may stand in a text, going by the words in it, each by itself."""
        return [one.text for one in self.phrases if one.head <= words and not (one.last and words.isdisjoint(one.last))]

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
    return Terms(frozen, tuple(map(_phrase, sorted(frozen))), _pattern(terms - {""} | frozen.keys()))


def _phrase(text: str) -> _Phrase:
    words = tokens(text)
    forms = (last + ending for last in words[-1:] for ending in (b"", b"s", b"es"))
    return _Phrase(text, frozenset(words[:-1]), frozenset(forms))


def _pattern(phrases: set[str]) -> re.Pattern[str]:
    longest_first = sorted(phrases, key=lambda phrase: (-len(phrase), phrase))
    choices = "|".join(map(re.escape, longest_first)) or _NOTHING
    return re.compile(rf"\{{[^{{}}]*\}}|(?<![\w-])(?P<phrase>{choices})(?:e?s)?(?![\w-])", re.IGNORECASE)


def _even(phrase: str) -> str:
    return " ".join(phrase.lower().split())
