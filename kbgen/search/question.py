"""What a query asks for: its words with everything they may stand for, and the stretches that may be codes."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from kbgen.search import codes
from kbgen.search.engine import Engine
from kbgen.search.kin import kin
from kbgen.search.normalise import Word, composed, words
from kbgen.search.spelling import Correction, Vocabulary, allowed, slips
from kbgen.search.synonyms import Phrase, Synonyms, key
from kbgen.search.tables import STOP, UNITS, WEAK

EXACT, KIN, SYNONYM, CORRECTED, UNFINISHED = 10, 8, 7, (0, 6, 5, 4), 5
"""Weight of a word that stands for a word of the query: the same, another form of it, one that means the same, a
corrected one by the number of slips, one that begins so."""

MOST_WORDS = 30
"""Further words of a query are not looked at."""

SHORTEST_PREFIX = 2
"""A last word of fewer letters is not completed: half of all words would match."""

LONGEST_SMALL = 4
"""A word with a slip in it may be meant as a small word if it is no longer than this."""

_SMALL = tuple(sorted(STOP | WEAK))
_DIGITS = re.compile("[0-9]+")


@dataclass(frozen=True)
class Lexicon:
    """All words that mean something here: those of the index and those of the synonyms."""

    engine: Engine
    synonyms: Synonyms

    @cached_property
    def vocabulary(self) -> Vocabulary:
        """Return every known word."""
        return Vocabulary({*self.engine.words, *self.synonyms.words})

    def holds(self, word: str) -> bool:
        """Tell whether the word is known."""
        return self.engine.holds(word) or word in self.synonyms.words

    def begins(self, word: str) -> bool:
        """Tell whether the word is known or a known word begins with it."""
        return self.holds(word) or bool(self.engine.beginning_with(word) or self.synonyms.beginning_with(word))

    def corrections(self, word: str, begun: bool, unfinished: bool) -> tuple[Correction, ...]:
        """Return the known words that this one may be a slip for; each word is corrected once only.

        Where known words begin with it (`begun`), at most one slip is thought of.
        """
        asked = (word, begun, unfinished)
        if asked not in self._corrected:
            most = min(allowed(word), 1) if begun else allowed(word)
            self._corrected[asked] = self.vocabulary.corrections(word, most, unfinished and not begun)
        return self._corrected[asked]

    @cached_property
    def _corrected(self) -> dict[tuple[str, bool, bool], tuple[Correction, ...]]:
        return {}


@dataclass(frozen=True)
class Asked:
    """One word of the query. `forms` are the spellings it may be meant as, `weights` all words that answer it.

    `needed`: an entry without it answers the query less well. `unfinished`: it may be the beginning of a word.
    `corrected`: no known word is spelt so.
    """

    word: Word
    forms: tuple[str, ...]
    weights: Mapping[str, int]
    needed: bool
    unfinished: bool
    corrected: bool


@dataclass(frozen=True)
class Meaning:
    """The words `first` up to `last` (excluded) of the query, and the phrases that say the same."""

    first: int
    last: int
    phrases: tuple[Phrase, ...]

    @property
    def weights(self) -> dict[str, int]:
        """Return what to look up, with its weight."""
        return {key(phrase): SYNONYM for phrase in self.phrases}


@dataclass(frozen=True)
class Question:
    """A query understood. `text` is what was typed."""

    text: str
    asked: tuple[Asked, ...]
    meanings: tuple[Meaning, ...]
    codes: tuple[codes.Candidate, ...]


def understand(text: str, lexicon: Lexicon) -> Question:
    """Read a query against the words that are known."""
    found = words(text)[:MOST_WORDS]
    typing = bool(found) and found[-1].end == len(composed(text))
    last = len(found) - 1 if typing else len(found)
    asked = _needed_at_all([_asked(word, place == last, lexicon) for place, word in enumerate(found)])
    return Question(text, asked, tuple(_meanings(asked, lexicon.synonyms)), codes.candidates(text))


def _needed_at_all(asked: Sequence[Asked]) -> tuple[Asked, ...]:
    """Where only weak words are asked for, each of them is needed."""
    return tuple(asked if any(a.needed for a in asked) else (replace(a, needed=True) for a in asked))


def _asked(word: Word, last: bool, lexicon: Lexicon) -> Asked:
    term = word.term
    unfinished = last and len(term) >= SHORTEST_PREFIX
    completed = lexicon.engine.beginning_with(term) if unfinished else []
    started = lexicon.synonyms.beginning_with(term) if unfinished and not completed else []
    begun = bool(completed or started)
    related = [form for form in kin(term) if lexicon.engine.holds(form)]
    known = related or lexicon.holds(term)
    corrected = () if known else lexicon.corrections(term, begun, unfinished)
    weights = {one.word: CORRECTED[one.slips] for one in corrected}
    weights |= dict.fromkeys((*completed, *_with_unit(term, lexicon.engine)), UNFINISHED)
    weights |= dict.fromkeys(related, KIN)
    if lexicon.engine.holds(term):
        weights[term] = EXACT
    forms = tuple(started) or (() if begun else _nearest(corrected)) or (term,)
    mistyped = bool(corrected) and not begun
    needed = (last or term not in WEAK) and not (mistyped and _is_small(term))
    return Asked(word, forms, weights, needed, unfinished, mistyped)


def _is_small(term: str) -> bool:
    """Tell whether a word that nobody knows may be a slip for one that tells nothing."""
    return len(term) <= LONGEST_SMALL and any(slips(term, word, 1) <= 1 for word in _SMALL)


def _nearest(corrected: tuple[Correction, ...]) -> tuple[str, ...]:
    fewest = min((one.slips for one in corrected), default=0)
    return tuple(one.word for one in corrected if one.slips == fewest)


def _with_unit(term: str, engine: Engine) -> list[str]:
    if not _DIGITS.fullmatch(term):
        return []
    return [term + unit for unit in sorted(set(UNITS.values())) if engine.holds(term + unit)]


def _meanings(asked: tuple[Asked, ...], synonyms: Synonyms) -> Iterator[Meaning]:
    """Find the phrases of the synonyms from left to right, the longest first, without overlap."""
    place = 0
    while place < len(asked):
        meaning = _meaning_at(place, asked, synonyms)
        if meaning:
            yield meaning
        place = meaning.last if meaning else place + 1


def _meaning_at(first: int, asked: tuple[Asked, ...], synonyms: Synonyms) -> Meaning | None:
    beginning = [phrase for form in asked[first].forms for phrase in synonyms.by_first.get(form, ())]
    said = [phrase for phrase in beginning if _says(asked[first : first + len(phrase)], phrase)]
    longest = max(map(len, said), default=0)
    same = {other for phrase in said if len(phrase) == longest for other in synonyms.same.get(phrase, ())}
    return Meaning(first, first + longest, tuple(sorted(same))) if same else None


def _says(asked: tuple[Asked, ...], phrase: Phrase) -> bool:
    """Tell whether the words say the phrase; the last of several words may be unfinished."""
    if len(asked) != len(phrase):
        return False
    last = asked[-1]
    begun = len(phrase) > 1 and last.unfinished and phrase[-1].startswith(last.word.term)
    said = (word in a.forms for a, word in zip(asked, phrase, strict=True))
    return all(said) or (begun and _says(asked[:-1], phrase[:-1]))
