"""Which codes of which entries a question names. code_hits.js does the same."""

import bisect
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from kbgen.search import codes
from kbgen.search.codes import Candidate
from kbgen.search.entry import Entry
from kbgen.search.index import DIGITS, FULL, LOOKS, CodeRef
from kbgen.search.normalise import composed, terms
from kbgen.search.question import Lexicon, Question
from kbgen.search.spelling import slips

EXACT, NAMED, NUMBER, DIGITS_ONLY, ALIKE, PERHAPS = 6, 5, 4, 3, 2, 1
"""Rank of a code: just these letters and digits; the same but for zeros; all from its first number on is all that was
asked; so are its digits; characters that look alike were mistaken, or it may be a channel of the code before it; a
number or word that may mean something else."""

MOST_CODES = 4
"""So many codes of one entry are given as reasons."""

SHORTEST_NEAR = 2
"""Shorter keys are one slip away from too many."""


@dataclass
class CodeHit:
    """Codes of an entry by place with their rank, and the bits of the words of the query that they account for."""

    ranks: dict[int, int] = field(default_factory=dict)
    stretches: dict[int, Candidate] = field(default_factory=dict)
    places: int = 0

    @property
    def rank(self) -> int:
        """Return the best rank."""
        return max(self.ranks.values(), default=0)

    @property
    def count(self) -> int:
        """Return how many codes were typed that this entry has."""
        spans = sorted((c.end, c.start) for place, c in self.stretches.items() if self.ranks[place] > PERHAPS)
        count, at = 0, 0
        for end, start in spans:
            if start >= at:
                count, at = count + 1, end
        return count

    def best(self) -> list[int]:
        """Return the places of the best codes."""
        return sorted(self.ranks, key=lambda place: (-self.ranks[place], place))[:MOST_CODES]


@dataclass(frozen=True)
class _Found:
    rank: int
    candidate: Candidate
    ref: CodeRef


class CodeBook:
    """All codes by key."""

    def __init__(self, entries: Sequence[Entry], refs: Mapping[str, tuple[CodeRef, ...]]) -> None:
        self._entries = entries
        self._refs = refs
        self._keys = sorted(refs)

    def hits(self, question: Question, lexicon: Lexicon) -> dict[int, CodeHit]:
        """Return the codes that are named, by number of the entry, or those that the end of the query begins."""
        named = _apart(list(self._named(question, lexicon)))
        best = max((one.rank for one in named), default=0)
        hits: dict[int, CodeHit] = {}
        for one in named or self._begun(question):
            if one.rank == PERHAPS < best:
                continue
            hit = hits.setdefault(one.ref.entry, CodeHit())
            hit.places |= _places_within(question, one.candidate)
            if one.rank > hit.ranks.get(one.ref.code, 0):
                hit.ranks[one.ref.code] = one.rank
                hit.stretches[one.ref.code] = one.candidate
        return hits

    def near(self, question: Question) -> list[tuple[int, int]]:
        """Return entries, each with the place of a code, one slip away from what looks most like a code."""
        likely = (one for one in question.codes if one.mixed or one.whole)
        like = next((one for one in likely if len(one.keys[0]) >= SHORTEST_NEAR), None)
        found: dict[int, int] = {}
        for key in self._keys if like else ():
            if like and any(_is_near(typed, key) for typed in like.keys):
                for ref in self._refs[key]:
                    if ref.strength == FULL:
                        found.setdefault(ref.entry, ref.code)
        return list(found.items())

    def _named(self, question: Question, lexicon: Lexicon) -> Iterator[_Found]:
        text = composed(question.text)
        for candidate in question.codes:
            stretch = text[candidate.start : candidate.end]
            for code_key in candidate.keys:
                for ref in self._refs.get(code_key, ()):
                    if ref.strength != LOOKS:
                        yield _Found(self._rank(candidate, ref, stretch), candidate, ref)
            if candidate.alike and not all(map(lexicon.begins, terms(stretch))):
                yield from self._alike(candidate)

    def _rank(self, candidate: Candidate, ref: CodeRef, stretch: str) -> int:
        if ref.strength != FULL:
            return (DIGITS_ONLY if ref.strength == DIGITS else NUMBER) if candidate.whole else PERHAPS
        if not candidate.mixed and not candidate.whole:
            return PERHAPS
        if candidate.attached:
            return ALIKE
        code = self._entries[ref.entry].codes[ref.code].code
        return EXACT if codes.raw(code) == codes.raw(stretch) else NAMED

    def _alike(self, candidate: Candidate) -> Iterator[_Found]:
        for code_key in candidate.alike:
            for ref in self._refs.get(code_key, ()):
                if ref.strength == FULL or (ref.strength == LOOKS and code_key.startswith(codes.MARK)):
                    yield _Found(ALIKE, candidate, ref)

    def _begun(self, question: Question) -> Iterator[_Found]:
        """Find the codes whose first part ends the query, while it is being typed."""
        text = composed(question.text)
        for candidate in question.codes:
            if candidate.end < len(text):
                continue
            for beginning in codes.beginnings(text[candidate.start :]):
                for code_key in self._keys_beginning_with(beginning):
                    for ref in self._refs[code_key]:
                        yield _Found(PERHAPS, candidate, ref)

    def _keys_beginning_with(self, beginning: str) -> Iterator[str]:
        for place in range(bisect.bisect_left(self._keys, beginning), len(self._keys)):
            if not self._keys[place].startswith(beginning):
                return
            yield self._keys[place]


def _apart(found: list[_Found]) -> list[_Found]:
    """Leave out what lies within a longer stretch that names a code no worse."""
    named = {(one.candidate.start, one.candidate.end, one.rank) for one in found if one.rank > PERHAPS}
    return [one for one in found if not any(_holds(longer, one) for longer in named)]


def _holds(longer: tuple[int, int, int], one: _Found) -> bool:
    start, end, rank = longer
    candidate = one.candidate
    wider = end - start > candidate.end - candidate.start
    return wider and start <= candidate.start and candidate.end <= end and rank >= one.rank


def _is_near(typed: str, key: str) -> bool:
    return abs(len(typed) - len(key)) <= 1 and slips(typed, key, 1) <= 1


def _places_within(question: Question, candidate: Candidate) -> int:
    return sum(
        1 << place
        for place, asked in enumerate(question.asked)
        if asked.word.start >= candidate.start and asked.word.end <= candidate.end
    )
