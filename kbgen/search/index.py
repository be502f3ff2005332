"""Entries -> the search index, and the script file that carries it to the browser."""

import json
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from kbgen.search import codes, engine
from kbgen.search.entry import Channel, Entry
from kbgen.search.normalise import composed, terms
from kbgen.search.packed import pack, packed_table, steps
from kbgen.search.synonyms import Synonyms, normalised

FULL, PART, DIGITS, LOOKS = 3, 2, 1, 0
"""How a key stands for a code: all of it; all from its first number on; only its numbers, without the letters between
and after them; all of it with letters exchanged for digits."""

PROCEDURE = "procedure"

Row = list["str | Row"]
"""An entry as nested lists of texts."""

_WORTH_SHARING = 5
"""Shorter texts take no more room than their place in the list."""


@dataclass(frozen=True)
class CodeRef:
    """Where a key leads: the code at `code` of the entry at `entry`; `strength` is one of the above."""

    entry: int
    code: int
    strength: int


@dataclass(frozen=True, eq=False)
class SearchIndex:
    """All that a query needs. Entries are in the order that breaks ties; `engine` is a packed text index."""

    entries: tuple[Entry, ...]
    codes: Mapping[str, tuple[CodeRef, ...]]
    synonyms: Synonyms
    channels: tuple[Channel, ...]
    engine: Mapping[str, str]


def build(
    entries: Sequence[Entry], synonyms: Sequence[tuple[str, ...]], channels: Iterable[Channel] = ()
) -> SearchIndex:
    """Build the index; the order of what is given makes no difference."""
    ordered = tuple(sorted(entries, key=_place))
    groups = normalised(synonyms)
    return SearchIndex(
        entries=ordered,
        codes=_code_refs(ordered),
        synonyms=groups,
        channels=tuple(sorted(channels, key=lambda one: (one.display, one.mark, one.serves))),
        engine=engine.build([_fields(entry, groups) for entry in ordered]),
    )


def _place(entry: Entry) -> tuple[bool, str, str]:
    """Procedures come before parts and tools, then titles decide."""
    return (entry.kind != PROCEDURE, composed(entry.title).lower(), entry.href)


def first_aside(index: SearchIndex) -> int:
    """Return the number of the first entry that is no procedure."""
    return sum(entry.kind == PROCEDURE for entry in index.entries)


def as_json(index: SearchIndex) -> dict[str, object]:
    """Return the index in the form that query.js reads (described at `load` there)."""
    refs = {key: [n for ref in refs for n in (ref.entry, ref.code, ref.strength)] for key, refs in index.codes.items()}
    rows = [_row(entry) for entry in index.entries]
    shared = _shared(rows)
    places = {text: place for place, text in enumerate(shared)}
    return {
        "channels": [[channel.display, channel.mark, channel.serves] for channel in index.channels],
        "codes": packed_table(refs),
        "displays": _groups((code.display, n) for n, entry in enumerate(index.entries) for code in entry.codes),
        "engine": index.engine,
        "entries": "\n".join(_compact(_shortened(row, places)) for row in rows),
        "families": _groups((entry.family, n) for n, entry in enumerate(index.entries)),
        "firstAside": first_aside(index),
        "shared": shared,
        "synonyms": index.synonyms.groups,
    }


def script(index: SearchIndex) -> str:
    """Return a classic script that sets `kbgen.searchData`.

    Nearly all of it is a few long strings, which browsers read as fast as `JSON.parse` would. It is pure ASCII, so that
    U+2028 and U+2029 cannot end the line, and has no "<", so that it cannot end a script element.
    """
    data = json.dumps(as_json(index), separators=(",", ":")).replace("<", "\\u003c")
    return f"(globalThis.kbgen = globalThis.kbgen || {{}}).searchData = {data};\n"


def _groups(named: Iterable[tuple[str, int]]) -> list[list[str]]:
    """Return each name with the numbers of its entries, packed in steps; no name is no group."""
    found: dict[str, set[int]] = {}
    for name, number in named:
        found.setdefault(name, set()).add(number)
    return [[name, pack(steps(sorted(found[name])))] for name in sorted(found) if name]


def _shared(rows: Iterable[Row]) -> list[str]:
    """Return the texts that several rows hold, such as tools and hazards, in the order of the alphabet."""
    seen = Counter(text for row in rows for text in set(_texts(row)))
    return sorted(text for text, count in seen.items() if count > 1 and len(text) >= _WORTH_SHARING)


def _texts(row: Row) -> Iterator[str]:
    for value in row:
        if isinstance(value, str):
            yield value
        else:
            yield from _texts(value)


def _shortened(row: Row, places: Mapping[str, int]) -> list[object]:
    """Return the row with the place of each shared text instead of the text."""
    return [places.get(one, one) if isinstance(one, str) else _shortened(one, places) for one in row]


def _compact(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))


def _code_refs(entries: Sequence[Entry]) -> dict[str, tuple[CodeRef, ...]]:
    found: dict[str, list[CodeRef]] = {}
    for number, entry in enumerate(entries):
        for place, code in enumerate(entry.codes):
            keys = codes.keys(code.code)
            for strength, some in ((FULL, keys.full), (PART, keys.part), (DIGITS, keys.digits), (LOOKS, keys.alike)):
                for key in some:
                    found.setdefault(key, []).append(CodeRef(number, place, strength))
    return {key: tuple(found[key]) for key in sorted(found)}


def _fields(entry: Entry, synonyms: Synonyms) -> dict[str, list[str]]:
    lines = {
        "title": [entry.title],
        "codes": [text for code in entry.codes for text in (code.text, code.display)],
        "symptoms": [text for symptom in entry.symptoms for text in (symptom.text, *symptom.also)],
        "equipment": [entry.equipment, entry.family],
        "words": [*entry.words, *entry.hazards],
    }
    return {field: [word for text in texts for word in _line(text, synonyms)] for field, texts in lines.items()}


def _line(text: str, synonyms: Synonyms) -> list[str]:
    words = terms(text)
    return words + synonyms.keys_in(words)


def _row(entry: Entry) -> Row:
    return [
        entry.href,
        entry.kind,
        entry.title,
        entry.equipment,
        entry.family,
        [[code.code, code.display, code.text] for code in entry.codes],
        [[symptom.text, *symptom.also] for symptom in entry.symptoms],
        list(entry.words),
        entry.state,
        list(entry.hazards),
    ]
