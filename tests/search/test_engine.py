from lunr.builder import Builder

from kbgen.search import engine
from kbgen.search.index import _fields

from .vectors import INDEX


def test_index_equals_the_one_of_the_stock_builder() -> None:
    documents = [_fields(entry, INDEX.synonyms) for entry in INDEX.entries]
    stock = Builder()
    stock.ref("number")
    for field, boost in engine.FIELDS.items():
        stock.field(field, boost=boost)
    for number, document in enumerate(documents):
        stock.add({"number": number, **document})
    assert engine.build(documents) == stock.build().serialize()


def test_no_documents_give_an_empty_index() -> None:
    empty = engine.Engine(engine.build([]))
    assert empty.words == []
    assert empty.hits({"pump": 1.0}) == {}


def test_documents_without_words_give_no_hits() -> None:
    blank = engine.Engine(engine.build([{field: [] for field in engine.FIELDS}]))
    assert blank.hits({"pump": 1.0}) == {}


def test_phrases_are_found_but_are_no_words() -> None:
    loaded = engine.Engine(INDEX.engine)
    assert all("_" not in word for word in loaded.words)
    assert loaded.holds("not_start")
    assert loaded.beginning_with("not_") == []


def test_words_beginning_with_a_prefix_are_all_there() -> None:
    loaded = engine.Engine(INDEX.engine)
    for prefix in ("", "b", "be", "zz"):
        assert loaded.beginning_with(prefix) == [word for word in loaded.words if word.startswith(prefix)]
