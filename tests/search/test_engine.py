import json
import random
import shutil
import subprocess
from pathlib import Path

from lunr.builder import Builder

from kbgen.search import engine
from kbgen.search.index import _fields

from .vectors import INDEX

DOCUMENTS = [_fields(entry, INDEX.synonyms) for entry in INDEX.entries]
LARGEST = 11
"""No word weighs more than this in the small corpus."""

LUNR = Path(__file__).parent / "node" / "lunr.js"


def stock_index() -> dict[str, object]:
    stock = Builder()
    stock.ref("number")
    for field, boost in engine.FIELDS.items():
        stock.field(field, boost=boost)
    for number, document in enumerate(DOCUMENTS):
        stock.add({"number": number, **document})
    serialised: dict[str, object] = stock.build().serialize()
    return serialised


def test_index_holds_what_the_stock_builder_makes() -> None:
    ours, stock = engine.lunr_index(DOCUMENTS).serialize(), stock_index()
    assert ours["fieldVectors"] == stock["fieldVectors"]
    assert ours["invertedIndex"] == stock["invertedIndex"]


def test_weights_give_the_scores_of_lunr_in_the_browser() -> None:
    loaded = engine.Engine(INDEX.engine)
    chance = random.Random(5)
    queries = [chance.sample(loaded.words, chance.randint(1, 4)) for _ in range(60)]
    program = shutil.which("node")
    assert program
    asked = json.dumps({"index": stock_index(), "queries": queries})
    run = subprocess.run([program, str(LUNR)], input=asked, capture_output=True, text=True, check=True)
    for words, theirs in zip(queries, json.loads(run.stdout), strict=True):
        ours: dict[str, float] = {}
        for word in words:
            for number, weight in loaded.weights(word):
                ours[str(number)] = ours.get(str(number), 0) + weight
        assert ours.keys() == theirs.keys()
        scale = 31 * 100 * len(words) ** 0.5  # lunr divides by the length of the query's vector
        rounded = len(words) * LARGEST / 31 / 2 + 0.01
        assert all(abs(ours[number] / scale - theirs[number]) < rounded for number in ours)


def test_no_documents_give_an_empty_index() -> None:
    empty = engine.Engine(engine.build([]))
    assert empty.words == []
    assert list(empty.weights("pump")) == []


def test_documents_without_words_hold_nothing() -> None:
    blank = engine.Engine(engine.build([{field: [] for field in engine.FIELDS}]))
    assert not blank.holds("pump")


def test_phrases_are_found_but_are_no_words() -> None:
    loaded = engine.Engine(INDEX.engine)
    assert all("_" not in word for word in loaded.words)
    assert loaded.holds("not_start")
    assert list(loaded.weights("not_start"))
    assert loaded.beginning_with("not_") == []


def test_words_beginning_with_a_prefix_are_all_there() -> None:
    loaded = engine.Engine(INDEX.engine)
    for prefix in ("", "b", "be", "zz"):
        assert loaded.beginning_with(prefix) == [word for word in loaded.words if word.startswith(prefix)]
