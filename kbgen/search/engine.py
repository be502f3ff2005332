"""The text index behind one small interface, so that another engine can take its place.

engine.js is the same on lunr.js. Words come in normalised, and a phrase as one word with underscores, which only `hits`
finds. The stemmers and stop words of lunr are never used, as those of lunr.py and lunr.js differ.
"""

import bisect
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from lunr.builder import Builder
from lunr.index import Index
from lunr.pipeline import Pipeline
from lunr.query import Clause, Query
from lunr.token_set import TokenSet

FIELDS: Mapping[str, int] = {"title": 4, "codes": 3, "symptoms": 5, "equipment": 2, "words": 1}
"""Fields of an entry with the weight of a match in them (chosen by judgement, not measured)."""


@dataclass(frozen=True)
class Hit:
    """How well an entry matches, and which of the words it holds."""

    score: float
    words: frozenset[str]


class _WordBuilder(Builder):  # type: ignore[misc]
    """Takes words as they are: `Builder.add` wraps each in a token with metadata of its own, which doubles the time."""

    def add_words(self, number: int, document: Mapping[str, Sequence[str]]) -> None:
        ref = str(number)
        self._documents[ref] = {}
        self.document_count += 1
        for field in FIELDS:
            counts = Counter(document[field])
            self.field_term_frequencies[f"{field}/{ref}"] = counts
            self.field_lengths[f"{field}/{ref}"] = len(document[field])
            for word in counts:
                self._posting(word)[field][ref] = {}

    def _posting(self, word: str) -> dict[str, Any]:
        posting: dict[str, Any] | None = self.inverted_index.get(word)
        if posting is None:
            posting = {**{field: {} for field in FIELDS}, "_index": self.term_index}
            self.inverted_index[word] = posting
            self.term_index += 1
        return posting


def build(documents: Sequence[Mapping[str, Sequence[str]]]) -> dict[str, Any]:
    """Return the serialised index; each document maps every name in `FIELDS` to its words."""
    if not documents:
        return _serialised(Index({}, {}, TokenSet(), list(FIELDS), Pipeline()))
    builder = _WordBuilder()
    for field, boost in FIELDS.items():
        builder.field(field, boost=boost)
    for number, document in enumerate(documents):
        builder.add_words(number, document)
    return _serialised(builder.build())


def _serialised(index: Index) -> dict[str, Any]:
    parts: dict[str, Any] = index.serialize()
    return parts


class Engine:
    """A loaded index."""

    def __init__(self, serialised: Mapping[str, Any]) -> None:
        self._index = Index.load(serialised)
        self.words: list[str] = sorted(word for word in self._index.inverted_index if "_" not in word)

    def holds(self, word: str) -> bool:
        """Tell whether some entry holds this word."""
        return word in self._index.inverted_index

    def beginning_with(self, prefix: str) -> list[str]:
        """Return the words of the index that begin so, sorted."""
        first = bisect.bisect_left(self.words, prefix)
        last = first
        while last < len(self.words) and self.words[last].startswith(prefix):
            last += 1
        return self.words[first:last]

    def hits(self, weights: Mapping[str, float]) -> dict[int, Hit]:
        """Return the entries that hold at least one of the weighted words, by number of the entry."""
        query = Query(self._index.fields)
        for word in sorted(weights):
            if self.holds(word):
                query.clause(Clause(word, boost=weights[word], use_pipeline=False))
        if not query.clauses:
            return {}
        return {int(match["ref"]): _hit(match) for match in self._index.query(query)}


def _hit(match: Mapping[str, Any]) -> Hit:
    return Hit(score=match["score"], words=frozenset(match["match_data"].metadata))
