"""The text index behind one small interface, so that another engine can take its place. engine.js reads the same.

lunr weighs every word of every entry (BM25, fields weighted). What lunr would load in a browser is far too slow for ten
thousand entries, so only the sum of the weights over the fields is kept, packed: with it, a query of words for all
fields gives the scores that lunr gives, up to rounding. Words come in normalised, and a phrase as one word with
underscores. The stemmers and stop words of lunr are never used, as those of lunr.py and lunr.js differ.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from lunr.builder import Builder
from lunr.index import Index
from lunr.token_set import TokenSet

from kbgen.search.packed import Table, packed_table, steps

FIELDS: Mapping[str, int] = {"title": 4, "codes": 3, "symptoms": 5, "equipment": 2, "words": 1}
"""Fields of an entry with the weight of a match in them."""

_LEVELS = 31
"""A weight is kept as so many parts of the largest weight that its word has anywhere."""

_UNIT = 100
"""The largest weight itself is kept in hundredths."""


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

    def _create_token_set(self) -> None:
        """Leave out the automaton for wildcards, which nothing asks."""
        self.token_set = TokenSet()


def lunr_index(documents: Sequence[Mapping[str, Sequence[str]]]) -> Index:
    """Return the index of lunr; each document maps every name in `FIELDS` to its words. There must be a document."""
    builder = _WordBuilder()
    for field, boost in FIELDS.items():
        builder.field(field, boost=boost)
    for number, document in enumerate(documents):
        builder.add_words(number, document)
    return builder.build()


def build(documents: Sequence[Mapping[str, Sequence[str]]]) -> dict[str, str]:
    """Return the packed index; each document maps every name in `FIELDS` to its words."""
    if not documents:
        return packed_table({})
    index = lunr_index(documents)
    by_place = _weights(index)
    return packed_table({word: _row(by_place[index.inverted_index[word]["_index"]]) for word in index.inverted_index})


def _weights(index: Index) -> list[dict[int, float]]:
    """Sum the weights over the fields: for each word by its place in lunr's index, entry -> weight."""
    found: list[dict[int, float]] = [{} for _ in index.inverted_index]
    for ref, vector in index.field_vectors.items():
        entry = int(ref.partition("/")[2])
        elements = iter(vector.elements)
        for place, weight in zip(elements, elements, strict=True):
            found[place][entry] = found[place].get(entry, 0.0) + weight
    return found


def _row(weights: Mapping[int, float]) -> list[int]:
    """Return the largest weight, then for each entry its distance from the one before and its level."""
    largest = max(weights.values()) or 1.0
    entries = sorted(weights)
    levels = (max(1, round(_LEVELS * weights[entry] / largest)) for entry in entries)
    pairs = zip(steps(entries), levels, strict=True)
    return [round(_UNIT * largest), *(number for pair in pairs for number in pair)]


class Engine:
    """A loaded index. Weights are whole numbers, so that Python and JavaScript add up the same."""

    def __init__(self, packed: Mapping[str, str]) -> None:
        self._table = Table(packed)
        self.words: list[str] = [word for word in self._table.keys if "_" not in word]

    def holds(self, word: str) -> bool:
        """Tell whether some entry holds this word or phrase."""
        return self._table.holds(word)

    def beginning_with(self, prefix: str) -> list[str]:
        """Return the words that begin so, sorted; phrases are left out."""
        return [word for word in self._table.beginning_with(prefix) if "_" not in word]

    def weights(self, word: str) -> Iterator[tuple[int, int]]:
        """Yield each entry that holds the word, ascending, with the weight of the word in it."""
        row = iter(self._table.row(word))
        largest = next(row, 0)
        entry = 0
        for step, level in zip(row, row, strict=True):
            entry += step
            yield entry, largest * level
