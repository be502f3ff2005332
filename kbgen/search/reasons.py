"""Why an entry answers a query: its codes, and the lines that hold the words asked for, with those words marked."""

from collections.abc import Sequence
from dataclasses import dataclass

from kbgen.search.entry import Entry
from kbgen.search.normalise import Word, composed, words
from kbgen.search.question import Question

MOST_LINES = 2
"""So many lines are given beside the code; more would push the next result off the screen."""

_LONG = 120
_BEFORE, _AFTER = 5, 12


@dataclass(frozen=True)
class Part:
    """A piece of a line; `marked` if it is what was asked for."""

    text: str
    marked: bool


@dataclass(frozen=True)
class Reason:
    """A line that matches. `kind`: code, symptom, also, title, equipment, display, words or hazard.

    `about`: the display that shows the code, or the symptom that an "also" line says in other words; else empty.
    """

    kind: str
    about: str
    parts: tuple[Part, ...]


@dataclass(frozen=True)
class _Line:
    kind: str
    about: str
    head: str
    text: str


@dataclass(frozen=True)
class _Matched:
    line: _Line
    covered: frozenset[int]
    literal: int
    marked: frozenset[str]


def reasons(
    entry: Entry, question: Question, code_places: Sequence[int], covered: frozenset[int]
) -> tuple[Reason, ...]:
    """Return the codes found (by place in the entry), then the lines that together answer the most words.

    `covered` are the words of the query that the codes account for.
    """
    by_code = [_matched(_code_line(entry, place), question) for place in code_places]
    covered = covered.union(*(match.covered for match in by_code))
    others = [_matched(line, question) for line in _lines(entry)]
    chosen = _choose(others, covered)
    return (*(_reason(match, True) for match in by_code), *(_reason(match, False) for match in chosen))


def _code_line(entry: Entry, place: int) -> _Line:
    code = entry.codes[place]
    return _Line("code", code.display, code.code, code.text)


def _lines(entry: Entry) -> list[_Line]:
    """List the lines of an entry, those that tell most about a match first."""
    lines: list[_Line] = []
    for symptom in entry.symptoms:
        lines.append(_Line("symptom", "", "", symptom.text))
        lines += [_Line("also", symptom.text, "", text) for text in symptom.also]
    lines += [_code_line(entry, place) for place in range(len(entry.codes))]
    lines.append(_Line("title", "", "", entry.title))
    lines += [_Line("equipment", "", "", text) for text in (entry.equipment, entry.family)]
    lines += [_Line("display", "", "", code.display) for code in entry.codes]
    lines.append(_Line("words", "", "", entry.words))
    lines += [_Line("hazard", "", "", hazard) for hazard in entry.hazards]
    return lines


def _choose(matches: list[_Matched], covered: frozenset[int]) -> list[_Matched]:
    chosen: list[_Matched] = []
    while len(chosen) < MOST_LINES:
        best = max(matches, key=lambda match: (len(match.covered - covered), match.literal))
        if not best.covered - covered:
            break
        chosen.append(best)
        covered |= best.covered
    return chosen


def _matched(line: _Line, question: Question) -> _Matched:
    """Find which words of the query the line answers, how many of them literally, and the words of the line to mark."""
    held = {word.term for word in words(line.text)}
    covered: set[int] = set()
    marked: set[str] = set()
    for place, asked in enumerate(question.asked):
        if asked.needed and (own := held & asked.weights.keys()):
            covered.add(place)
            marked |= own
    for meaning in question.meanings:
        for phrase in meaning.phrases:
            if held.issuperset(phrase):
                covered.update(range(meaning.first, meaning.last))
                marked.update(phrase)
    literal = sum(asked.word.term in held for asked in question.asked)
    return _Matched(line, frozenset(covered), literal, frozenset(marked))


def _reason(match: _Matched, code_found: bool) -> Reason:
    line = match.line
    text = composed(line.text)
    found = words(text)
    first, last = _excerpt(text, found, match.marked) if line.kind == "words" else (0, len(text))
    parts = _marked_parts(text, [word for word in found if word.term in match.marked], first, last)
    head = [Part(line.head, code_found)] if line.head else []
    between = [Part(": ", False)] if head and parts else []
    return Reason(line.kind, line.about, tuple(head + between + parts))


def _excerpt(text: str, found: list[Word], marked: frozenset[str]) -> tuple[int, int]:
    """Return where to cut a long text: some words before the first marked one to some words after it."""
    if len(text) <= _LONG:
        return 0, len(text)
    at = next(place for place, word in enumerate(found) if word.term in marked)
    first = found[at - _BEFORE].start if at > _BEFORE else 0
    last = found[at + _AFTER].end if at + _AFTER < len(found) else len(text)
    return first, last


def _marked_parts(text: str, marks: list[Word], first: int, last: int) -> list[Part]:
    parts = [Part("… ", False)] if first else []
    at = first
    for mark in marks:
        if mark.start >= at and mark.end <= last:
            parts += [Part(text[at : mark.start], False), Part(text[mark.start : mark.end], True)]
            at = mark.end
    parts.append(Part(text[at:last], False))
    parts += [Part(" …", False)] if last < len(text) else []
    return [part for part in parts if part.text]
