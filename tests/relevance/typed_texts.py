"""Lines as people type them: misspelt, shortened, turned round, unfinished.

Which entries answer is told from the plain words of the lines, by rules that know nothing of any search: entries with a
line of just the same words, or for shortened queries, those with a line no longer than the source that holds all of it.
"""

from __future__ import annotations

import random
import string
from collections.abc import Callable, Iterator, Sequence

from .corpora import Corpus, Line, plain_words
from .query import Query
from .sources import misspellings

_LONG = 5

Made = tuple[str, frozenset[str]] | None
Kind = Callable[[Corpus, Line, random.Random], Made]


def edited(word: str, chance: random.Random) -> str:
    """Return the word with one letter lost, added, exchanged or swapped with its neighbour, never the first."""
    at = chance.randrange(1, len(word) - 1)
    letter = chance.choice(string.ascii_lowercase)
    made = chance.choice(
        (
            word[:at] + word[at + 1 :],
            word[:at] + letter + word[at:],
            word[:at] + letter + word[at + 1 :],
            word[:at] + word[at + 1] + word[at] + word[at + 2 :],
        )
    )
    return made if made != word else edited(word, chance)


def _verbatim(corpus: Corpus, line: Line, chance: random.Random) -> Made:
    return line.text, corpus.same_words(line.text)


def _one_edit(corpus: Corpus, line: Line, chance: random.Random) -> Made:
    pieces = line.text.split()
    long = [place for place, piece in enumerate(pieces) if len(piece) >= _LONG and piece.isalpha()]
    if not long:
        return None
    for place in long:
        pieces[place] = edited(pieces[place].lower(), chance)
    return " ".join(pieces), corpus.same_words(line.text)


def _misspelt(fewest: int, most: int) -> Kind:
    def make(corpus: Corpus, line: Line, chance: random.Random) -> Made:
        pieces = line.text.split()
        known = [place for place, piece in enumerate(pieces) if piece.lower() in misspellings()]
        if len(known) < fewest:
            return None
        for place in chance.sample(known, min(len(known), most)):
            pieces[place] = chance.choice(misspellings()[pieces[place].lower()])
        return " ".join(pieces), corpus.same_words(line.text)

    return make


def _dropped(count: int) -> Kind:
    def make(corpus: Corpus, line: Line, chance: random.Random) -> Made:
        pieces = line.text.split()
        if len(pieces) < 3 + count:
            return None
        for _ in range(count):
            pieces.pop(chance.randrange(len(pieces)))
        text = " ".join(pieces)
        return text, corpus.holding(plain_words(text), len(plain_words(line.text)))

    return make


def _turned_round(corpus: Corpus, line: Line, chance: random.Random) -> Made:
    pieces = line.text.split()
    if len(set(pieces)) < 3:
        return None
    mixed = chance.sample(pieces, len(pieces))
    return (" ".join(mixed), corpus.same_words(line.text)) if mixed != pieces else _turned_round(corpus, line, chance)


def _unfinished(corpus: Corpus, line: Line, chance: random.Random) -> Made:
    words = plain_words(line.text)
    last = line.text.split()[-1].lower()
    if len(words) < 2 or last != words[-1] or len(last) < 4:
        return None
    begun = last[: chance.randint(2, len(last) - 1)]
    return line.text[: -len(last)] + begun, corpus.holding(words[:-1], len(words), begun)


KINDS: dict[str, Kind] = {
    "description": _verbatim,
    "one generated edit per long word": _one_edit,
    "one or two real misspellings": _misspelt(1, 2),
    "three or more real misspellings": _misspelt(3, 9),
    "a word dropped": _dropped(1),
    "two words dropped": _dropped(2),
    "order changed": _turned_round,
    "last word unfinished": _unfinished,
}


def text_queries(corpus: Corpus, lines: Sequence[Line], chance: random.Random) -> Iterator[Query]:
    """Yield one query of each kind for every line that allows it."""
    for line in lines:
        for name, kind in KINDS.items():
            made = kind(corpus, line, chance)
            if made:
                yield Query(corpus.name, name, *made)
