"""What a query asks for: its words with everything they may stand for, and the stretches that may be codes."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from kbgen.search import codes
from kbgen.search.engine import Engine
from kbgen.search.normalise import Word, composed, words
from kbgen.search.spelling import corrections
from kbgen.search.synonyms import Phrase, Synonyms, key
from kbgen.search.tables import UNITS, WEAK

EXACT, SYNONYM, CORRECTED, UNFINISHED = 1.0, 0.7, 0.6, 0.5
"""Weight of a word that stands for a word of the query (chosen by judgement, not measured)."""

_DIGITS = re.compile("[0-9]+")

SHORTEST_PREFIX = 2
"""A last word of fewer letters is not completed: half of all words would match."""


@dataclass(frozen=True)
class Lexicon:
    """All words that mean something here: those of the index and those of the synonyms."""

    engine: Engine
    synonyms: Synonyms

    @cached_property
    def words(self) -> tuple[str, ...]:
        """Return every known word, sorted."""
        return tuple(sorted({*self.engine.words, *self.synonyms.words}))

    def holds(self, word: str) -> bool:
        """Tell whether the word is known."""
        return self.engine.holds(word) or word in self.synonyms.words


@dataclass(frozen=True)
class Asked:
    """One word of the query. `forms` are the spellings it may be meant as, `weights` all words that answer it.

    `needed`: an entry without it answers the query less well.
    """

    word: Word
    forms: tuple[str, ...]
    weights: Mapping[str, float]
    needed: bool


@dataclass(frozen=True)
class Meaning:
    """The words `first` up to `last` (excluded) of the query, and the phrases that say the same."""

    first: int
    last: int
    phrases: tuple[Phrase, ...]


@dataclass(frozen=True)
class Question:
    """A query understood. `text` is what was typed; `typing`: its last word may be unfinished."""

    text: str
    typing: bool
    asked: tuple[Asked, ...]
    meanings: tuple[Meaning, ...]
    codes: tuple[codes.Candidate, ...]

    def weights(self) -> dict[str, float]:
        """Return every word to look up with its weight."""
        found: dict[str, float] = {}
        for asked in self.asked:
            for word, weight in asked.weights.items():
                found[word] = max(weight, found.get(word, 0.0))
        for phrase in (phrase for meaning in self.meanings for phrase in meaning.phrases):
            found[key(phrase)] = max(SYNONYM, found.get(key(phrase), 0.0))
        return found


def understand(text: str, lexicon: Lexicon) -> Question:
    """Read a query against the words that are known."""
    found = words(text)
    typing = bool(found) and found[-1].end == len(composed(text))
    asked = _needed_at_all(
        tuple(_asked(word, typing and place == len(found) - 1, lexicon) for place, word in enumerate(found))
    )
    return Question(text, typing, asked, _meanings(asked, lexicon.synonyms), codes.candidates(text))


def _needed_at_all(asked: tuple[Asked, ...]) -> tuple[Asked, ...]:
    """Where only weak words are asked for, each of them is needed."""
    return asked if any(a.needed for a in asked) else tuple(replace(a, needed=True) for a in asked)


def _asked(word: Word, unfinished: bool, lexicon: Lexicon) -> Asked:
    term = word.term
    completed = lexicon.engine.beginning_with(term) if unfinished and len(term) >= SHORTEST_PREFIX else []
    forms = (term,) if completed else _forms(term, unfinished, lexicon)
    weights = dict.fromkeys([*completed, *_with_unit(term, lexicon.engine)], UNFINISHED)
    weights |= dict.fromkeys(forms, CORRECTED)
    if term in forms:
        weights[term] = EXACT
    return Asked(word, forms, weights, needed=unfinished or term not in WEAK)


def _forms(term: str, unfinished: bool, lexicon: Lexicon) -> tuple[str, ...]:
    if lexicon.holds(term):
        return (term,)
    if unfinished and len(term) >= SHORTEST_PREFIX:
        started = tuple(word for word in lexicon.synonyms.words if word.startswith(term))
        if started:
            return started
    return corrections(term, lexicon.words) or (term,)


def _with_unit(term: str, engine: Engine) -> list[str]:
    if not _DIGITS.fullmatch(term):
        return []
    return [term + unit for unit in sorted(set(UNITS.values())) if engine.holds(term + unit)]


def _meanings(asked: tuple[Asked, ...], synonyms: Synonyms) -> tuple[Meaning, ...]:
    """Find the phrases of the synonyms from left to right, the longest first, without overlap."""
    found: list[Meaning] = []
    place = 0
    while place < len(asked):
        meaning = _meaning_at(place, asked, synonyms)
        if meaning:
            found.append(meaning)
        place = meaning.last if meaning else place + 1
    return tuple(found)


def _meaning_at(first: int, asked: tuple[Asked, ...], synonyms: Synonyms) -> Meaning | None:
    for last in range(min(first + synonyms.longest, len(asked)), first, -1):
        said = [phrase for phrase in synonyms.same if _says(asked[first:last], phrase)]
        if said:
            same = {other for phrase in said for other in synonyms.same[phrase]}
            return Meaning(first, last, tuple(sorted(same)))
    return None


def _says(asked: tuple[Asked, ...], phrase: Phrase) -> bool:
    return len(asked) == len(phrase) and all(word in a.forms for a, word in zip(asked, phrase, strict=True))
