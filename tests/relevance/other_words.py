"""Other words for what an entry says: from the table of the knowledge base, from two thesauri, from another author.

The table for the trouble codes is WordNet's (words that share a first sense), so that no one here chose it. Queries
from the same table show only that a table works; queries with Moby's words show what such a table is worth against
words that someone else chose.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cache

from .corpora import Corpus, Line, plain_words, trouble
from .query import Query
from .sources import guide, moby, wordnet

_SHORTEST, _CLOSEST = 4, 3


@cache
def trouble_with_table() -> Corpus:
    """The trouble codes with WordNet as the table of synonyms."""
    groups = tuple((word, *mates) for word, mates in _mates().items())
    return replace(trouble(), name="trouble codes, WordNet as table", synonyms=groups)


@cache
def _vocabulary() -> frozenset[str]:
    return frozenset(word for line in trouble().lines for word in plain_words(line.text))


@cache
def _mates() -> Mapping[str, tuple[str, ...]]:
    known = sorted(word for word in _vocabulary() if len(word) >= _SHORTEST)
    return {word: wordnet()[word] for word in known if word in wordnet()}


@cache
def _moby_mates() -> Mapping[str, tuple[str, ...]]:
    known = sorted(word for word in _vocabulary() if len(word) >= _SHORTEST)
    found = {word: _closest(word) for word in known if word in moby()}
    return {word: mates for word, mates in found.items() if mates}


def _closest(word: str) -> tuple[str, ...]:
    own = moby()[word]
    both_ways = [other for other in own if word in moby().get(other, ()) and " " not in other]
    nearness = {other: len(own & moby()[other]) / len(own | moby()[other]) for other in both_ways}
    return tuple(sorted(set(both_ways) - _vocabulary(), key=lambda other: (-nearness[other], other))[:_CLOSEST])


def trouble_queries(lines: Sequence[Line], chance: random.Random) -> Iterator[Query]:
    """Yield lines of the trouble codes with one word exchanged for one that no entry holds."""
    corpus = trouble_with_table()
    for line in lines:
        for kind, mates in (("synonym of the table", _mates()), ("synonym another chose", _moby_mates())):
            text = _exchanged(line.text, mates, chance)
            if text:
                yield Query(corpus.name, kind, text, corpus.same_words(line.text))


def _exchanged(text: str, mates: Mapping[str, Sequence[str]], chance: random.Random) -> str:
    pieces = text.split()
    unknown = {place: [m for m in mates.get(piece.lower(), ()) if not _vocabulary() & set(plain_words(m))]
               for place, piece in enumerate(pieces)}  # fmt: skip
    places = [place for place, others in unknown.items() if others]
    if not places:
        return ""
    place = chance.choice(places)
    pieces[place] = chance.choice(unknown[place])
    return " ".join(pieces)


def guide_queries(corpus: Corpus) -> list[Query]:
    """What another author wrote about a code; any of the codes that it is given for is right."""
    known = frozenset(entry.href for entry in corpus.entries)
    queries = (Query(corpus.name, "another author's words", text, known & set(codes)) for text, codes in guide())
    return [query for query in queries if query.right]


def table_queries(corpus: Corpus, lines: Sequence[Line], chance: random.Random) -> Iterator[Query]:
    """Yield lines with a phrase exchanged for another one of its group in the table of the knowledge base."""
    for line in lines:
        words = plain_words(line.text)
        for group in corpus.synonyms:
            phrases = [plain_words(phrase) for phrase in group]
            said = next((phrase for phrase in phrases if _place(words, phrase) >= 0), None)
            others = [phrase for phrase in phrases if phrase != said]
            if said and others:
                at = _place(words, said)
                asked = " ".join((*words[:at], *chance.choice(others), *words[at + len(said) :]))
                right = corpus.same_words(line.text) | corpus.same_words(asked)
                yield Query(corpus.name, "synonym of the table", asked, right)


def _place(words: list[str], phrase: list[str]) -> int:
    places = range(len(words) - len(phrase) + 1)
    return next((place for place in places if words[place : place + len(phrase)] == phrase), -1)


def said_queries(corpus: Corpus, lines: Sequence[Line]) -> Iterator[Query]:
    """Yield lines as they were said, to a knowledge base that lacks them."""
    for line in lines:
        yield Query(corpus.name, "also line held out", line.text, corpus.same_words(line.text))
