"""The query, as the browser answers it: query.js gives the same results in the same order for the same reasons."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property, lru_cache

from kbgen.search.channels import channel_named
from kbgen.search.code_hits import PERHAPS, CodeBook, CodeHit
from kbgen.search.engine import Engine
from kbgen.search.entry import Entry
from kbgen.search.index import SearchIndex, first_aside
from kbgen.search.normalise import composed
from kbgen.search.question import Lexicon, Question, understand
from kbgen.search.ranking import Ranked, View, by_lines, ranked
from kbgen.search.reasons import Part, Reason, reasons

MOST_RESULTS = 20
MOST_NEAR = 5


@dataclass(frozen=True)
class Scope:
    """What the person looks at. `family` and `display` leave all else out; `in_view` (a family) only breaks ties."""

    family: str = ""
    display: str = ""
    in_view: str = ""


@dataclass(frozen=True)
class Result:
    """An entry that answers the query, and why."""

    entry: Entry
    reasons: tuple[Reason, ...]


@dataclass(frozen=True)
class Corrected:
    """A word as it was typed, and the known words it was taken for."""

    typed: str
    meant: tuple[str, ...]


@dataclass(frozen=True)
class Answer:
    """The best results, of `total` that there are.

    `families` and `displays` tell how many entries each would leave, before either narrows the results down. `near` is
    given only where nothing was found: entries whose code is one slip away from what was typed.
    """

    total: int
    results: tuple[Result, ...]
    corrected: tuple[Corrected, ...]
    families: tuple[tuple[str, int], ...]
    displays: tuple[tuple[str, int], ...]
    near: tuple[Result, ...]


class _Loaded:
    def __init__(self, index: SearchIndex) -> None:
        self.index = index
        self.lexicon = Lexicon(Engine(index.engine), index.synonyms)
        self.book = CodeBook(index.entries, index.codes)
        self.first_aside = first_aside(index)

    @cached_property
    def families(self) -> dict[str, frozenset[int]]:
        return _groups((entry.family, number) for number, entry in enumerate(self.index.entries))

    @cached_property
    def displays(self) -> dict[str, frozenset[int]]:
        entries = enumerate(self.index.entries)
        return _groups((code.display, number) for number, entry in entries for code in entry.codes)


def find(index: SearchIndex, text: str) -> tuple[Result, ...]:
    """Return the best results for a query, the best first."""
    return answer(index, text).results


def answer(index: SearchIndex, text: str, scope: Scope = Scope()) -> Answer:  # noqa: B008  # frozen
    """Return the best results for a query and how many there are in all."""
    loaded = _loaded(index)
    question = understand(text, loaded.lexicon)
    hits = loaded.book.hits(question, loaded.lexicon)
    view = View(loaded.first_aside, loaded.families.get(scope.in_view, frozenset()))
    found = ranked(question, loaded.lexicon.engine, hits, view)
    kept = [one for one in found if _is_within(one.number, scope, loaded)]
    best = by_lines(kept, question, index.entries)[:MOST_RESULTS]
    return Answer(
        total=len(kept),
        results=tuple(_result(index, question, one) for one in best),
        corrected=tuple(_corrected(question)),
        families=_counts(loaded.families, found),
        displays=_counts(loaded.displays, found),
        near=() if found else tuple(_near(loaded, question)),
    )


@lru_cache(maxsize=4)
def _loaded(index: SearchIndex) -> _Loaded:
    return _Loaded(index)


def _groups(named: Iterable[tuple[str, int]]) -> dict[str, frozenset[int]]:
    found: dict[str, set[int]] = {}
    for name, number in named:
        found.setdefault(name, set()).add(number)
    return {name: frozenset(found[name]) for name in sorted(found) if name}


def _is_within(number: int, scope: Scope, loaded: _Loaded) -> bool:
    in_family = not scope.family or number in loaded.families.get(scope.family, ())
    return in_family and (not scope.display or number in loaded.displays.get(scope.display, ()))


def _counts(groups: dict[str, frozenset[int]], found: Iterable[Ranked]) -> tuple[tuple[str, int], ...]:
    numbers = {one.number for one in found}
    counted = ((name, len(group & numbers)) for name, group in groups.items())
    return tuple((name, count) for name, count in counted if count)


def _corrected(question: Question) -> Iterator[Corrected]:
    text = composed(question.text)
    for asked in question.asked:
        if asked.corrected:
            yield Corrected(text[asked.word.start : asked.word.end], asked.forms)


def _result(index: SearchIndex, question: Question, one: Ranked) -> Result:
    entry = index.entries[one.number]
    because = reasons(entry, question, one.code.best(), one.code.places)
    return Result(entry, (*because, *_channel_reasons(index, entry, question, one.code)))


def _channel_reasons(index: SearchIndex, entry: Entry, question: Question, hit: CodeHit) -> Iterator[Reason]:
    for place in hit.best():
        if hit.ranks[place] > PERHAPS:
            display = entry.codes[place].display
            mark, serves = channel_named(question.text, hit.stretches[place], display, index.channels)
            if mark:
                told = (Part(f": {serves}", False),) if serves else ()
                yield Reason("channel", display, (Part(mark, True), *told))


def _near(loaded: _Loaded, question: Question) -> Iterator[Result]:
    for number, place in loaded.book.near(question)[:MOST_NEAR]:
        entry = loaded.index.entries[number]
        code = entry.codes[place]
        yield Result(entry, (Reason("code", code.display, (Part(code.code, True),)),))
