"""All queries, split once by source: lines and codes of one part never make a query of the other."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TypeVar

from . import corpora, other_words
from .corpora import Corpus
from .query import Query
from .typed_codes import code_queries, several_codes
from .typed_texts import text_queries
from .verb_forms import verb_queries

SEED = 20261125
PARTS = ("working", "held-back")
_LINES, _CODES, _SEVERAL, _AMONG_MENTIONS = 1000, 250, 150, 250

Item = TypeVar("Item")


@dataclass(frozen=True)
class Suite:
    """The queries of one part, and the corpora that they ask."""

    part: str
    corpora: tuple[Corpus, ...]
    queries: tuple[Query, ...]


def suite(part: str) -> Suite:
    """Make the queries of a part; they are the same every time."""
    plain, faults, table = corpora.trouble(), corpora.faults(), other_words.trouble_with_table()
    mentions = corpora.trouble_among_mentions()
    demo, held_out = corpora.demo(), corpora.demo_without_other_words()
    lines = _half(plain.lines, part)[:_LINES]
    demo_lines = _half(demo.lines, part)

    def chance(name: str) -> random.Random:
        return random.Random(f"{SEED} {part} {name}")

    queries = [
        *code_queries(plain, _codes(plain, part), chance("codes")),
        *code_queries(demo, _half(tuple(demo.codes), part), chance("codes of the demo")),
        *several_codes(faults, chance("several codes"), _SEVERAL),
        *several_codes(demo, chance("several codes of the demo"), _SEVERAL // 5),
        *text_queries(plain, lines, chance("lines")),
        *text_queries(mentions, lines[:_AMONG_MENTIONS], chance("lines among mentions")),
        *text_queries(demo, demo_lines, chance("lines of the demo")),
        *verb_queries(plain, lines, chance("verbs")),
        *verb_queries(demo, demo_lines, chance("verbs of the demo")),
        *other_words.trouble_queries(lines, chance("synonyms")),
        *other_words.table_queries(demo, demo_lines, chance("synonyms of the demo")),
        *other_words.said_queries(held_out, _half(held_out.lines, part)),
        *_half(other_words.guide_queries(plain), part),
    ]
    return Suite(part, (plain, faults, mentions, table, demo, held_out), tuple(queries))


def _codes(corpus: Corpus, part: str) -> list[str]:
    """Some codes of the part, and all of those with letters inside."""
    own = _half(tuple(corpus.codes), part)
    inside = [code for code in own if not code[1:].isdigit()]
    return list(dict.fromkeys((*own[:_CODES], *inside)))


def _half(items: Sequence[Item], part: str) -> list[Item]:
    mixed = random.Random(SEED).sample(items, len(items))
    return mixed[PARTS.index(part) :: 2]


def every(queries: Sequence[Query], most: int) -> Iterator[Query]:
    """Yield the first `most` queries of each kind and corpus."""
    seen: dict[tuple[str, str], int] = {}
    for query in queries:
        key = (query.corpus, query.kind)
        seen[key] = seen.get(key, 0) + 1
        if seen[key] <= most:
            yield query
