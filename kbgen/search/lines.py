"""The lines of an entry, and how far each answers a question. lines.js does the same."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from kbgen.search.entry import Entry
from kbgen.search.normalise import terms
from kbgen.search.question import SYNONYM, Question


@dataclass(frozen=True)
class Line:
    """A text of an entry; `kind` and `about` as in `Reason`. `head` stands before the text and is not searched."""

    kind: str
    about: str
    head: str
    text: str


@dataclass(frozen=True)
class Matched:
    """A line with the places of the query that it answers, one bit each, and the words of it that do so.

    `strength` sums up how near the words come to those that were typed.
    """

    line: Line
    places: int
    strength: int
    marked: frozenset[str]


def code_line(entry: Entry, place: int) -> Line:
    """Return the line of a code."""
    code = entry.codes[place]
    return Line("code", code.display, code.code, code.text)


@lru_cache(maxsize=4096)
def lines_of(entry: Entry) -> tuple[tuple[Line, tuple[str, ...]], ...]:
    """List the lines of an entry with their words, those that tell most about a match first."""
    return tuple((line, tuple(terms(line.text))) for line in _lines(entry))


def _lines(entry: Entry) -> Iterator[Line]:
    for symptom in entry.symptoms:
        yield Line("symptom", "", "", symptom.text)
        yield from (Line("also", symptom.text, "", text) for text in symptom.also)
    yield from (code_line(entry, place) for place in range(len(entry.codes)))
    yield Line("title", "", "", entry.title)
    yield from (Line("equipment", "", "", text) for text in (entry.equipment, entry.family))
    yield from (Line("display", "", "", code.display) for code in entry.codes)
    yield from (Line("words", "", "", text) for text in entry.words)
    yield from (Line("hazard", "", "", hazard) for hazard in entry.hazards)


def matched(line: Line, words: tuple[str, ...], question: Question) -> Matched:
    """Find what a line of these words answers; each word answers one of the query, the same one first."""
    strengths: dict[int, int] = {}
    marked: set[str] = set()
    for place, word, weight in _answers(words, question):
        strengths[place] = weight
        marked |= {word} if question.asked[place].needed else set()
    held = frozenset(words)
    for meaning in question.meanings:
        for phrase in meaning.phrases:
            if held.issuperset(phrase):
                marked.update(phrase)
                for place in range(meaning.first, meaning.last):
                    strengths[place] = max(SYNONYM, strengths.get(place, 0))
    places = sum(1 << place for place in strengths)
    return Matched(line, places, sum(strengths.values()), frozenset(marked))


def _answers(words: tuple[str, ...], question: Question) -> Iterator[tuple[int, str, int]]:
    """Yield which place of the query is answered by which word, needed ones first, and how near the word comes."""
    left = Counter(words)
    later = []
    for place, asked in sorted(enumerate(question.asked), key=lambda one: not one[1].needed):
        term = asked.word.term
        if left[term] and term in asked.weights:
            left[term] -= 1
            yield place, term, asked.weights[term]
        else:
            later.append((place, asked.weights))
    for place, weights in later:
        near = [(-weights[word], word) for word, count in left.items() if count and word in weights]
        if near:
            weight, word = min(near)
            left[word] -= 1
            yield place, word, -weight
