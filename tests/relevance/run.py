"""Asks every query of every engine, all of them in JavaScript under node, where each is at home."""

from __future__ import annotations

import json
import shutil
import subprocess
from collections.abc import Mapping, Sequence
from pathlib import Path
from unittest import mock

from kbgen.search import engine
from kbgen.search.entry import Entry
from kbgen.search.index import build, script

from .corpora import Corpus
from .suite import Suite

OURS, LUNR = "ours", "lunr"
MINISEARCH = tuple(
    f"minisearch: {setting}"
    for setting in (
        "fuzzy 0.2",
        "fuzzy 0.2, prefix of the last word",
        "fuzzy 0.2, all words",
        "fuzzy 0.2, fields weighted",
        "fuzzy 0.3",
        "fuzzy 0.3, prefix of the last word, fields weighted",
        "fuzzy 1 of long words, prefix of the last word",
        "fuzzy 0.2, exact words far ahead",
    )
)
WITHOUT = (
    "code path",
    "look-alikes",
    "correction",
    "prefix",
    "re-ranking",
    "reading lines",
    "field weights",
    "synonyms",
    "verb forms",
)

_HERE = Path(__file__).parent

Found = Mapping[str, Sequence[Sequence[str]]]


def run(suite: Suite, engines: Sequence[str]) -> Found:
    """Return for each engine what it finds for each query, the best first."""
    program = shutil.which("node")
    assert program, "node is needed to ask the engines"
    asked = {
        "corpora": {corpus.name: _corpus(corpus) for corpus in suite.corpora},
        "queries": [(query.corpus, query.text) for query in suite.queries],
        "engines": list(engines),
    }
    done = subprocess.run(
        [program, str(_HERE / "node" / "run.js")],
        input=json.dumps(asked), capture_output=True, text=True, encoding="utf-8", check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    found: Found = json.loads(done.stdout)
    return found


def _corpus(corpus: Corpus) -> dict[str, object]:
    flat = dict.fromkeys(engine.FIELDS, 1)
    with mock.patch.object(engine, "FIELDS", flat):
        without_weights = script(build(corpus.entries, corpus.synonyms))
    return {
        "script": script(build(corpus.entries, corpus.synonyms)),
        "flat": without_weights,
        "documents": [_document(entry) for entry in corpus.entries],
    }


def _document(entry: Entry) -> dict[str, str]:
    """The same text in the same fields for the engines that know nothing of codes and symptoms."""
    said = [text for symptom in entry.symptoms for text in (symptom.text, *symptom.also)]
    return {
        "id": entry.href,
        "title": entry.title,
        "codes": "\n".join(f"{code.code} {code.text} {code.display}" for code in entry.codes),
        "symptoms": "\n".join(said),
        "equipment": f"{entry.equipment}\n{entry.family}",
        "words": "\n".join((*entry.words, *entry.hazards)),
    }
