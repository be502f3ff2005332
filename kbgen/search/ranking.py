"""Which entries answer a question, the best first. ranking.js does the same.

An entry that has more of the codes typed comes first, then the one whose code was typed more exactly. Otherwise the
entry comes first that answers more of the words. Among equals it is the one that answers most of them in one line, then
in words nearer to those typed, then in a line that says what the entry is about; then procedures come before parts and
tools, then the equipment in view, then shorter lines, then what the text engine weighs more. Entries that answer no
more than half of what the best one answers are left out.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from kbgen.search.code_hits import PERHAPS, CodeHit
from kbgen.search.engine import Engine
from kbgen.search.entry import Entry
from kbgen.search.lines import lines_of, matched
from kbgen.search.question import Question

MOST_READ = 30
"""Of so many entries the lines are read to put the best first; the others keep their order."""

MAIN = frozenset({"symptom", "also", "code", "title"})
"""Kinds of lines that say what an entry is about; the others mention things."""

MOST_TYPED = 7
"""An entry that has still more of the typed codes is no better."""


@dataclass(frozen=True)
class View:
    """What the order of equal answers depends on: numbers from `first_aside` on are parts and tools."""

    first_aside: int
    in_view: frozenset[int]


@dataclass
class _Text:
    """What the words found in an entry: their weight, and the places of the query that they answer, one bit each."""

    score: int = 0
    places: int = 0


@dataclass(frozen=True)
class Ranked:
    """An entry by number, with how well it answers; of `first` and `then` less is better, of `score` more."""

    number: int
    code: CodeHit
    coverage: int
    first: tuple[int, ...]
    then: tuple[int, ...]
    score: int


def ranked(question: Question, engine: Engine, code_hits: Mapping[int, CodeHit], view: View) -> list[Ranked]:
    """Return all entries that answer the question, the best first."""
    texts = _texts(question, engine)
    needed = _needed(question)
    found = [
        _rank(number, texts.get(number, _Text()), code_hits.get(number, CodeHit()), needed, view)
        for number in sorted({*texts, *code_hits})
    ]
    best = max((one.coverage for one in found), default=0)
    kept = [one for one in found if one.code.rank > PERHAPS or one.coverage * 2 > best]
    return sorted(kept, key=lambda one: (one.first, one.then, -one.score, one.number))


def by_lines(found: Sequence[Ranked], question: Question, entries: Sequence[Entry]) -> list[Ranked]:
    """Put the best lines first among the first entries of equal rank."""
    needed = _needed(question)

    def order(one: Ranked) -> tuple[object, ...]:
        answered, length = _best_line(entries[one.number], question, needed)
        return (one.first, answered, one.then, length, -one.score, one.number)

    return [*sorted(found[:MOST_READ], key=order), *found[MOST_READ:]]


def _best_line(entry: Entry, question: Question, needed: int) -> tuple[tuple[int, int, bool], int]:
    """Return how well the best line answers (less is better), and its length."""
    found = [((0, 0, True), 0)]
    for line, words in lines_of(entry):
        match = matched(line, words, question)
        answered = (-(match.places & needed).bit_count(), -match.strength, line.kind not in MAIN)
        found.append((answered, len(words) if match.places else 0))
    return min(found)


def _needed(question: Question) -> int:
    return sum(1 << place for place, asked in enumerate(question.asked) if asked.needed)


def _rank(number: int, text: _Text, code: CodeHit, needed: int, view: View) -> Ranked:
    places = text.places | code.places
    coverage, weak = (places & needed).bit_count(), (places & ~needed).bit_count()
    aside, elsewhere = number >= view.first_aside, number not in view.in_view
    decided = max(code.rank - PERHAPS, 0)
    first = (-min(code.count, MOST_TYPED), -decided, -coverage)
    return Ranked(number, code, coverage, first, (-code.rank, aside, -weak, elsewhere), text.score)


def _texts(question: Question, engine: Engine) -> dict[int, _Text]:
    texts: dict[int, _Text] = {}
    single = {meaning.first: meaning.weights for meaning in question.meanings if meaning.last - meaning.first == 1}
    for place, asked in enumerate(question.asked):
        _add(texts, 1 << place, _best(engine, (asked.weights, single.get(place, {}))))
    for meaning in question.meanings:
        if meaning.last - meaning.first > 1:
            _add(texts, (1 << meaning.last) - (1 << meaning.first), _best(engine, (meaning.weights,)))
    return texts


def _add(texts: dict[int, _Text], places: int, found: Mapping[int, int]) -> None:
    for number, score in found.items():
        text = texts.setdefault(number, _Text())
        if text.places & places != places:
            text.places |= places
            text.score += score


def _best(engine: Engine, alternatives: Iterable[Mapping[str, int]]) -> dict[int, int]:
    """Return for each entry the most that one of the words weighs in it."""
    best: dict[int, int] = {}
    for weights in alternatives:
        for word, factor in weights.items():
            for number, weight in engine.weights(word):
                best[number] = max(best.get(number, 0), factor * weight)
    return best
