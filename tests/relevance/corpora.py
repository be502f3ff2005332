"""What is searched: real trouble codes that no one here wrote, the same ones several to a fault, and the demo."""

from __future__ import annotations

import random
import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache, cached_property
from pathlib import Path

from kbgen.cache import no_cache
from kbgen.examine import examine
from kbgen.library.folder import Folder
from kbgen.search.entry import Code, Entry
from kbgen.site.search_entries import search_entries

from . import sources

DEMO = Path(__file__).parents[2] / "procedures"
_FAULTS, _CODES_OF_A_FAULT = 600, 3
_MENTIONS = 12
_SEED = 611


@dataclass(frozen=True)
class Line:
    """A text of an entry that queries are made from."""

    text: str
    href: str


@dataclass(frozen=True)
class Corpus:
    """Entries with the synonyms of their knowledge base, and the lines that queries are made from."""

    name: str
    entries: tuple[Entry, ...]
    synonyms: tuple[tuple[str, ...], ...]
    lines: tuple[Line, ...]

    def same_words(self, text: str) -> frozenset[str]:
        """Return the entries that have a line of just the words of this text, in any order."""
        return frozenset(self._by_words.get(tuple(sorted(plain_words(text))), ()))

    def holding(self, asked: Sequence[str], size: int, begun: str = "") -> frozenset[str]:
        """Return the entries with a line of at most `size` words: all that are asked, and one more that begins so."""
        bag = Counter(asked)
        rarest = min((self._bags_with.get(word, []) for word in bag), key=len)
        found = ((other - bag, href) for other, href in rarest if other.total() <= size and bag <= other)
        return frozenset(href for rest, href in found if not begun or any(word.startswith(begun) for word in rest))

    @cached_property
    def _by_words(self) -> Mapping[tuple[str, ...], set[str]]:
        found: dict[tuple[str, ...], set[str]] = {}
        for line in self.lines:
            found.setdefault(tuple(sorted(plain_words(line.text))), set()).add(line.href)
        return found

    @cached_property
    def _bags_with(self) -> Mapping[str, list[tuple[Counter[str], str]]]:
        found: dict[str, list[tuple[Counter[str], str]]] = {}
        for line in self.lines:
            bag = Counter(plain_words(line.text))
            for word in bag:
                found.setdefault(word, []).append((bag, line.href))
        return found

    @cached_property
    def codes(self) -> Mapping[str, frozenset[str]]:
        """Every code with the entries that it belongs to."""
        found: dict[str, set[str]] = {}
        for entry in self.entries:
            for code in entry.codes if entry.kind == "procedure" else ():
                found.setdefault(code.code, set()).add(entry.href)
        return {code: frozenset(found[code]) for code in sorted(found)}


def plain_words(text: str) -> list[str]:
    """Split as anyone would: runs of letters and digits in lower case (not the normaliser that is being judged)."""
    return re.findall("[a-z0-9]+", text.lower())


@cache
def trouble() -> Corpus:
    """One entry for each real trouble code, without synonyms."""
    entries = tuple(_entry(code, (code,), text) for code, text in sources.trouble_codes().items())
    return Corpus("trouble codes", entries, (), tuple(Line(one.title, one.href) for one in entries))


@cache
def trouble_among_mentions() -> Corpus:
    """The trouble codes, each of which mentions what some others say, as a procedure mentions causes and parts."""
    chance = random.Random(_SEED)
    plain = trouble()
    texts = [entry.title for entry in plain.entries]
    entries = tuple(replace(entry, words=tuple(chance.sample(texts, _MENTIONS))) for entry in plain.entries)
    return replace(plain, name="trouble codes among mentions", entries=entries)


@cache
def faults() -> Corpus:
    """Invented faults, each of which raises some of the real codes."""
    chance = random.Random(_SEED)
    codes = sources.trouble_codes()
    pool = chance.sample(sorted(codes), _FAULTS)
    raised = [tuple(chance.sample(pool, _CODES_OF_A_FAULT)) for _ in range(_FAULTS)]
    entries = tuple(_entry(f"fault-{n}", shown, codes[shown[0]]) for n, shown in enumerate(raised))
    return Corpus("faults with codes", entries, (), ())


def _entry(href: str, codes: tuple[str, ...], title: str) -> Entry:
    shown = tuple(Code(code, "", "") for code in codes)
    return Entry(href, "procedure", title, "", "", shown, (), (), "approved", ())


@cache
def demo() -> Corpus:
    """The demo knowledge base."""
    examined = examine(Folder(DEMO, "procedures"), None, no_cache())
    entries = tuple(search_entries(examined.digests, examined.shared))
    synonyms = tuple(tuple(map(str, group)) for group in examined.shared.synonyms)
    lines = [Line(text, entry.href) for entry in entries for text in _texts(entry)]
    return Corpus("demo", entries, synonyms, tuple(lines))


def _texts(entry: Entry) -> list[str]:
    said = [text for symptom in entry.symptoms for text in (symptom.text, *symptom.also)]
    return [entry.title, *said, *(code.text for code in entry.codes if code.text)]


@cache
def demo_without_other_words() -> Corpus:
    """The demo without its "also" lines, which become the lines to ask with."""
    full = demo()
    entries = tuple(
        replace(entry, symptoms=tuple(replace(one, also=()) for one in entry.symptoms)) for entry in full.entries
    )
    said = ((text, entry.href) for entry in full.entries for one in entry.symptoms for text in one.also)
    return Corpus("demo, also lines held out", entries, full.synonyms, tuple(Line(*one) for one in said))
