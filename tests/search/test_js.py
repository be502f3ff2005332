import json
import random
import shutil
import subprocess
import unicodedata
from pathlib import Path
from typing import Any

import pytest

from kbgen.search import tables
from kbgen.search.index import script
from kbgen.search.normalise import composed, words
from kbgen.search.query import answer

from .corpus import ENTRIES, SYNONYMS
from .vectors import INDEX, keys_of, plain

HERE = Path(__file__).parent


def _node(*arguments: str, given: str = "") -> subprocess.CompletedProcess[str]:
    program = shutil.which("node")
    assert program, "node is needed to test the scripts of the search"
    return subprocess.run(
        [program, *arguments], input=given, capture_output=True, text=True, encoding="utf-8", timeout=120, check=False
    )


def test_javascript_tests_pass() -> None:
    files = sorted(str(path) for path in (HERE.parent / "js").glob("search-*.test.js"))
    assert files
    run = _node("--test", *files)
    assert run.returncode == 0, run.stdout + run.stderr


def _texts() -> list[str]:
    """Make texts of characters that are likely to be treated differently, and of plain words."""
    chance = random.Random(20)
    assigned = unicodedata.ucd_3_2_0.category  # the oldest table, so that no character is new to either side
    plane = [chr(c) for c in range(0x20, 0x10000) if assigned(chr(c)) not in ("Cn", "Cs")]
    edges = list("aAsSeEnNtT0159 .,'’-_/#%°C½²ßİıΣςǅﬁK①⒈ⅳ") + [
        "\u0301",
        "\u0327",
        "\U0001d400",
        "\U0001f527",
        "가",
        "१",
    ]
    lines = [line for entry in ENTRIES for line in (entry.title, *entry.words, *(s.text for s in entry.symptoms))]
    mixed = ["".join(chance.choices(edges, k=chance.randint(1, 14))) for _ in range(600)]
    wide = ["".join(chance.choices(plane, k=chance.randint(1, 8))) for _ in range(400)]
    return lines + mixed + wide


def _codes() -> list[str]:
    chance = random.Random(21)
    return ["".join(chance.choices("AEFKx0012759-_./# é", k=chance.randint(1, 9))) for _ in range(500)]


def _queries() -> list[str]:
    chance = random.Random(22)
    texts = [text for entry in ENTRIES for text in (entry.title, *entry.words, entry.equipment)]
    texts += [phrase for group in SYNONYMS for phrase in group] + [
        "e-07",
        "K 214",
        "12b",
        "0070",
        "no",
        "not",
        "a",
        "hh",
        "HC 44IO",
        "/ch2",
        "#9",
        "axis 2",
        "BOI5",
        "error",
        "E-O7",
    ]
    pieces = sorted({piece for text in texts for piece in text.split()})
    whole = [" ".join(chance.choices(pieces, k=chance.randint(1, 4))) for _ in range(300)]
    return whole + [query[: chance.randint(1, len(query))] for query in whole] + _slips(chance, whole)


def _slips(chance: random.Random, queries: list[str]) -> list[str]:
    places = [(query, chance.randrange(len(query))) for query in queries]
    return [query[:at] + chance.choice("aeirst") + query[at + 1 :] for query, at in places]


@pytest.fixture(scope="module")
def javascript() -> dict[str, Any]:
    asked = {"texts": _texts(), "codes": _codes(), "queries": _queries(), "script": script(INDEX)}
    run = _node(str(HERE / "node" / "answer.js"), given=json.dumps(asked))
    assert run.returncode == 0, run.stderr
    answers: dict[str, Any] = json.loads(run.stdout)
    return answers


def test_tables_are_the_same(javascript: dict[str, Any]) -> None:
    assert javascript["tables"] == {
        "stop": sorted(tables.STOP),
        "weak": sorted(tables.WEAK),
        "not": sorted(tables.NOT),
        "letters": tables.LETTERS,
        "singular": tables.SINGULAR,
        "units": tables.UNITS,
        "channel": sorted(tables.CHANNEL),
        "aboutCodes": sorted(tables.ABOUT_CODES),
        "alike": tables.ALIKE,
    }


def test_any_text_has_the_same_words(javascript: dict[str, Any]) -> None:
    python = [[[w.term, composed(text)[w.start : w.end]] for w in words(text)] for text in _texts()]
    differing = [t for t, mine, theirs in zip(_texts(), python, javascript["words"], strict=True) if mine != theirs]
    assert differing == []


def test_any_code_has_the_same_keys(javascript: dict[str, Any]) -> None:
    python = [keys_of({"code": code}) for code in _codes()]
    assert javascript["keys"] == python


def test_any_query_has_the_same_answer(javascript: dict[str, Any]) -> None:
    for query, theirs in zip(_queries(), javascript["answers"], strict=True):
        assert theirs == plain(answer(INDEX, query)), query
