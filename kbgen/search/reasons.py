"""Why an entry answers a query: its codes, and the lines that hold the words asked for, with those words marked."""

from collections.abc import Sequence
from dataclasses import dataclass

from kbgen.search.entry import Entry
from kbgen.search.lines import Matched, code_line, lines_of, matched
from kbgen.search.normalise import Word, composed, terms, words
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
    """A line that matches. `kind`: code, channel, symptom, also, title, equipment, display, words or hazard.

    `about`: the display that shows the code or channel, or the symptom that an "also" line says in other words; else
    empty.
    """

    kind: str
    about: str
    parts: tuple[Part, ...]


def reasons(entry: Entry, question: Question, code_places: Sequence[int], covered: int) -> tuple[Reason, ...]:
    """Return the codes found (by place in the entry), then the lines that together answer the most words.

    `covered` are the words of the query that the codes account for, one bit each.
    """
    lines = (code_line(entry, place) for place in code_places)
    by_code = [matched(line, tuple(terms(line.text)), question) for line in lines]
    for match in by_code:
        covered |= match.places
    needed = sum(1 << place for place, asked in enumerate(question.asked) if asked.needed)
    others = [matched(line, held, question) for line, held in lines_of(entry)]
    chosen = _choose(others, needed & ~covered)
    return (*(_reason(match, True) for match in by_code), *(_reason(match, False) for match in chosen))


def _choose(matches: list[Matched], wanted: int) -> list[Matched]:
    chosen: list[Matched] = []
    while len(chosen) < MOST_LINES:
        best = max(matches, key=lambda match: ((match.places & wanted).bit_count(), match.strength))
        if not best.places & wanted:
            break
        chosen.append(best)
        wanted &= ~best.places
    return chosen


def _reason(match: Matched, code_found: bool) -> Reason:
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
