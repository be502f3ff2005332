"""The shared vectors: what is asked stands in the files; `python -m tests.search.vectors` fills in what Python answers.

Read the difference before committing it: the answers are what both languages are held to.
"""

import json
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from kbgen.search import codes, kin, normalise, packed, spelling
from kbgen.search.index import SearchIndex, as_json, build
from kbgen.search.query import Answer, Result, Scope, answer

from .corpus import CHANNELS, ENTRIES, SYNONYMS

FOLDER = Path(__file__).parent.parent / "vectors"
CORPUS = FOLDER / "search-index.json"
INDEX: SearchIndex = build(ENTRIES, SYNONYMS, CHANNELS)

Case = dict[str, Any]


def _words(case: Case) -> list[list[str]]:
    text = normalise.composed(case["text"])
    return [[word.term, text[word.start : word.end]] for word in normalise.words(text)]


def keys_of(case: Case) -> dict[str, list[str]]:
    keys = codes.keys(case["code"])
    return {name: sorted(getattr(keys, name)) for name in ("full", "part", "digits", "alike")}


def _candidates(case: Case) -> list[list[Any]]:
    return [list(candidate) for candidate in map(_as_lists, codes.candidates(case["text"]))]


def _as_lists(candidate: codes.Candidate) -> list[Any]:
    return [*candidate[:2], list(candidate.keys), list(candidate.alike), *candidate[4:]]


def plain(found: Answer) -> dict[str, Any]:
    """Return an answer in the form the vectors and the JavaScript side use."""
    return {
        "total": found.total,
        "results": [_plain_result(result) for result in found.results],
        "corrected": [{"typed": one.typed, "meant": list(one.meant)} for one in found.corrected],
        "families": [list(one) for one in found.families],
        "displays": [list(one) for one in found.displays],
        "near": [_plain_result(result) for result in found.near],
    }


def _plain_result(result: Result) -> dict[str, Any]:
    return {
        "href": result.entry.href,
        "reasons": [
            {
                "kind": reason.kind,
                "about": reason.about,
                "parts": [{"text": part.text, "marked": part.marked} for part in reason.parts],
            }
            for reason in result.reasons
        ],
    }


def _scoped(case: Case) -> dict[str, Any]:
    scope = Scope(case.get("family", ""), case.get("display", ""), case.get("inView", ""))
    return plain(answer(INDEX, case["text"], scope))


ANSWERS: Mapping[str, Mapping[str, Callable[[Case], Any]]] = {
    "search-normalise.json": {
        "fold": lambda case: normalise.fold(case["text"]),
        "singular": lambda case: normalise.singular(case["word"]),
        "words": _words,
    },
    "search-codes.json": {
        "base": lambda case: codes.base(case["code"]),
        "raw": lambda case: codes.raw(case["code"]),
        "beginnings": lambda case: list(codes.beginnings(case["text"])),
        "candidates": _candidates,
        "keys": keys_of,
    },
    "search-query.json": {
        "answer": _scoped,
    },
    "search-words.json": {
        "kin": lambda case: list(kin.kin(case["word"])),
        "slips": lambda case: spelling.slips(*case["pair"], case["most"], case["begun"]),
        "unpack": lambda case: packed.unpack(case["text"]),
    },
}


def read(name: str) -> dict[str, list[Case]]:
    """Return the groups of cases of a file."""
    groups: dict[str, list[Case]] = json.loads((FOLDER / name).read_text(encoding="utf-8"))
    return groups


def corpus_text() -> str:
    """Return the prebuilt index of the corpus, which the JavaScript tests load."""
    return json.dumps(as_json(INDEX), ensure_ascii=True, separators=(",", ":")) + "\n"


def _write() -> None:
    CORPUS.write_text(corpus_text(), encoding="utf-8")
    for name, handlers in ANSWERS.items():
        groups = read(name)
        for group, cases in groups.items():
            for case in cases:
                case["expected"] = handlers[group](case)
        lines = [
            f"  {json.dumps(group)}: [\n"
            + ",\n".join(f"    {json.dumps(c, ensure_ascii=True)}" for c in cases)
            + "\n  ]"
            for group, cases in groups.items()
        ]
        (FOLDER / name).write_text("{\n" + ",\n".join(lines) + "\n}\n", encoding="utf-8")


if __name__ == "__main__":
    _write()
