"""The query, as the browser answers it: query.js gives the same results in the same order for the same reasons.

An alarm code that is named in full decides. Otherwise the entry that answers more of the words comes first (words that
an entry need not hold only break ties), then the one that the text engine scores higher. Entries that answer no more
than half of what the best one answers are left out.
"""

import bisect
import math
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache

from kbgen.search import codes
from kbgen.search.engine import Engine, Hit
from kbgen.search.entry import Entry
from kbgen.search.index import FULL, CodeRef, SearchIndex
from kbgen.search.normalise import composed
from kbgen.search.question import Lexicon, Question, understand
from kbgen.search.reasons import Reason, reasons
from kbgen.search.synonyms import key

MOST_RESULTS = 20
MOST_CODES = 2
"""So many codes of one entry are given as reasons."""

NAMED, NUMBER, PERHAPS = 3, 2, 1
"""Rank of a code: named in full; its number is all that was asked; a number or word that may mean something else."""

_NO_HIT = Hit(0.0, frozenset())


@dataclass(frozen=True)
class Result:
    """An entry that answers the query, and why."""

    entry: Entry
    reasons: tuple[Reason, ...]


@dataclass(frozen=True)
class Answer:
    """The best results, of `total` that there are."""

    total: int
    results: tuple[Result, ...]


@dataclass
class _CodeHit:
    ranks: dict[int, int] = field(default_factory=dict)
    covered: set[int] = field(default_factory=set)

    @property
    def rank(self) -> int:
        return max(self.ranks.values(), default=0)

    def best(self) -> list[int]:
        return sorted(self.ranks, key=lambda place: (-self.ranks[place], place))[:MOST_CODES]


@dataclass(frozen=True)
class _Ranked:
    number: int
    code: _CodeHit
    coverage: int
    weak: int
    score: int

    @property
    def order(self) -> tuple[int, ...]:
        decided = max(self.code.rank - PERHAPS, 0)
        return (-decided, -self.coverage, -self.code.rank, -self.weak, -self.score, self.number)


class _Loaded:
    def __init__(self, index: SearchIndex) -> None:
        self.index = index
        self.lexicon = Lexicon(Engine(index.engine), index.synonyms)
        self.keys = sorted(index.codes)


def find(index: SearchIndex, text: str) -> tuple[Result, ...]:
    """Return the best results for a query, the best first."""
    return answer(index, text).results


def answer(index: SearchIndex, text: str) -> Answer:
    """Return the best results for a query and how many there are in all."""
    loaded = _loaded(index)
    question = understand(text, loaded.lexicon)
    code_hits = _code_hits(loaded, question)
    ranked = _ranked(loaded, question, code_hits)
    return Answer(len(ranked), tuple(_result(index, question, r) for r in ranked[:MOST_RESULTS]))


@lru_cache(maxsize=4)
def _loaded(index: SearchIndex) -> _Loaded:
    return _Loaded(index)


def _result(index: SearchIndex, question: Question, ranked: _Ranked) -> Result:
    entry = index.entries[ranked.number]
    covered = frozenset(ranked.code.covered)
    return Result(entry, reasons(entry, question, ranked.code.best(), covered))


def _ranked(loaded: _Loaded, question: Question, code_hits: dict[int, _CodeHit]) -> list[_Ranked]:
    hits = loaded.lexicon.engine.hits(question.weights())
    ranked = [
        _rank(number, question, code_hits.get(number, _CodeHit()), hits.get(number, _NO_HIT))
        for number in sorted({*hits, *code_hits})
    ]
    best = max((r.coverage for r in ranked), default=0)
    kept = [r for r in ranked if r.code.rank >= NUMBER or r.coverage * 2 > best]
    return sorted(kept, key=lambda r: r.order)


def _rank(number: int, question: Question, code: _CodeHit, hit: Hit) -> _Ranked:
    covered = set(code.covered)
    for place, asked in enumerate(question.asked):
        if not hit.words.isdisjoint(asked.weights):
            covered.add(place)
    for meaning in question.meanings:
        if any(key(phrase) in hit.words for phrase in meaning.phrases):
            covered.update(range(meaning.first, meaning.last))
    coverage = sum(question.asked[place].needed for place in covered)
    return _Ranked(number, code, coverage, len(covered) - coverage, math.floor(hit.score * 1000 + 0.5))


def _code_hits(loaded: _Loaded, question: Question) -> dict[int, _CodeHit]:
    named = list(_named(loaded, question))
    best = max((rank for rank, _, _ in named), default=0)
    found: dict[int, _CodeHit] = {}
    for rank, candidate, ref in named or _begun(loaded, question):
        if rank == PERHAPS < best:
            continue
        hit = found.setdefault(ref.entry, _CodeHit())
        hit.ranks[ref.code] = max(rank, hit.ranks.get(ref.code, 0))
        hit.covered |= _places_within(question, candidate)
    return found


def _named(loaded: _Loaded, question: Question) -> Iterator[tuple[int, codes.Candidate, CodeRef]]:
    for candidate in question.codes:
        for code_key in candidate.keys:
            for ref in loaded.index.codes.get(code_key, ()):
                yield _code_rank(candidate, ref), candidate, ref


def _code_rank(candidate: codes.Candidate, ref: CodeRef) -> int:
    if ref.strength == FULL:
        return NAMED if candidate.mixed or candidate.whole else PERHAPS
    return NUMBER if candidate.whole else PERHAPS


def _begun(loaded: _Loaded, question: Question) -> Iterator[tuple[int, codes.Candidate, CodeRef]]:
    """Find the codes whose first part ends the query, while it is being typed."""
    text = composed(question.text)
    for candidate in question.codes:
        if candidate.end < len(text):
            continue
        for beginning in codes.beginnings(text[candidate.start :]):
            for code_key in _keys_beginning_with(loaded.keys, beginning):
                for ref in loaded.index.codes[code_key]:
                    yield PERHAPS, candidate, ref


def _keys_beginning_with(keys: list[str], beginning: str) -> Iterator[str]:
    for place in range(bisect.bisect_left(keys, beginning), len(keys)):
        if not keys[place].startswith(beginning):
            return
        yield keys[place]


def _places_within(question: Question, candidate: codes.Candidate) -> set[int]:
    return {
        place
        for place, asked in enumerate(question.asked)
        if asked.word.start >= candidate.start and asked.word.end <= candidate.end
    }
