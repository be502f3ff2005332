"""Entries -> the search index, and the script file that carries it to the browser."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from kbgen.search import codes, engine
from kbgen.search.entry import Entry
from kbgen.search.normalise import composed, terms
from kbgen.search.synonyms import Synonyms, normalised

FULL, PART = 2, 1
"""How a key stands for a code: all of it, or only its number."""


@dataclass(frozen=True)
class CodeRef:
    """Where a key leads: the code at `code` of the entry at `entry`; `strength` is `FULL` or `PART`."""

    entry: int
    code: int
    strength: int


@dataclass(frozen=True, eq=False)
class SearchIndex:
    """All that a query needs. Entries are in the order that breaks ties; `engine` is a serialised text index."""

    entries: tuple[Entry, ...]
    codes: Mapping[str, tuple[CodeRef, ...]]
    synonyms: Synonyms
    engine: Mapping[str, Any]


def build(entries: Sequence[Entry], synonyms: Sequence[tuple[str, ...]]) -> SearchIndex:
    """Build the index; the order of the entries given makes no difference."""
    ordered = tuple(sorted(entries, key=lambda entry: (composed(entry.title).lower(), entry.href)))
    groups = normalised(synonyms)
    return SearchIndex(
        entries=ordered,
        codes=_code_refs(ordered),
        synonyms=groups,
        engine=engine.build([_fields(entry, groups) for entry in ordered]),
    )


def as_json(index: SearchIndex) -> dict[str, Any]:
    """Return the index in the form that query.js reads (described at `load` there)."""
    return {
        "codes": {key: [n for r in refs for n in (r.entry, r.code, r.strength)] for key, refs in index.codes.items()},
        "engine": index.engine,
        "entries": [_row(entry) for entry in index.entries],
        "synonyms": index.synonyms.groups,
    }


def script(index: SearchIndex) -> str:
    """Return a classic script that sets `kbgen.searchData`.

    The data is a string for `JSON.parse`, which browsers read about three times faster than an object literal. It is
    pure ASCII, so that U+2028 and U+2029 cannot end the line, and has no "<", so that it cannot end a script element.
    """
    data = json.dumps(as_json(index), ensure_ascii=False, separators=(",", ":"))
    literal = json.dumps(data).replace("<", "\\u003c")
    return f"(globalThis.kbgen = globalThis.kbgen || {{}}).searchData = JSON.parse({literal});\n"


def _code_refs(entries: Sequence[Entry]) -> dict[str, tuple[CodeRef, ...]]:
    found: dict[str, list[CodeRef]] = {}
    for number, entry in enumerate(entries):
        for place, code in enumerate(entry.codes):
            keys = codes.keys(code.code)
            for key in keys.full:
                found.setdefault(key, []).append(CodeRef(number, place, FULL))
            for key in keys.part:
                found.setdefault(key, []).append(CodeRef(number, place, PART))
    return {key: tuple(found[key]) for key in sorted(found)}


def _fields(entry: Entry, synonyms: Synonyms) -> dict[str, list[str]]:
    lines = {
        "title": [entry.title],
        "codes": [text for code in entry.codes for text in (code.text, code.display)],
        "symptoms": [text for symptom in entry.symptoms for text in (symptom.text, *symptom.also)],
        "equipment": [entry.equipment, entry.family],
        "words": [entry.words, *entry.hazards],
    }
    return {field: [word for text in texts for word in _line(text, synonyms)] for field, texts in lines.items()}


def _line(text: str, synonyms: Synonyms) -> list[str]:
    words = terms(text)
    return words + synonyms.keys_in(words)


def _row(entry: Entry) -> list[Any]:
    return [
        entry.href,
        entry.kind,
        entry.title,
        entry.equipment,
        entry.family,
        [[code.code, code.display, code.text] for code in entry.codes],
        [[symptom.text, *symptom.also] for symptom in entry.symptoms],
        entry.words,
        entry.state,
        list(entry.hazards),
    ]
