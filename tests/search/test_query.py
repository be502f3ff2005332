from hypothesis import given, settings
from hypothesis import strategies as st

from kbgen.search.entry import Entry, Symptom
from kbgen.search.index import build
from kbgen.search.normalise import composed
from kbgen.search.query import MOST_RESULTS, answer, find

from .corpus import ENTRIES
from .vectors import INDEX

PIECES = sorted({word for entry in ENTRIES for word in " ".join((entry.title, *entry.words)).split()})
QUERIES = st.one_of(
    st.text(max_size=20),
    st.lists(st.sampled_from([*PIECES, "no", "not", "e-07", "214", "humming", "dead", "the", "a"]), max_size=5).map(
        " ".join
    ),
)


@settings(deadline=None)
@given(QUERIES)
def test_every_result_says_why(query: str) -> None:
    for result in find(INDEX, query):
        assert result.reasons
        assert all(any(part.marked for part in reason.parts) for reason in result.reasons)


@settings(deadline=None)
@given(QUERIES)
def test_reasons_quote_the_entry(query: str) -> None:
    for result in find(INDEX, query):
        entry = composed(repr(result.entry)).replace("\\n", "\n").replace("\\xa0", "\xa0")
        for reason in result.reasons:
            quoted = "".join(part.text for part in reason.parts).removeprefix("… ").removesuffix(" …")
            assert all(piece in entry for piece in quoted.split(": ", 1))


def test_results_are_limited_and_counted() -> None:
    many = build([_pump(number) for number in range(MOST_RESULTS + 5)], ())
    found = answer(many, "pump")
    assert (found.total, len(found.results)) == (MOST_RESULTS + 5, MOST_RESULTS)


def test_ties_keep_the_order_of_titles() -> None:
    many = build([_pump(number) for number in (3, 1, 2)], ())
    assert [result.entry.href for result in find(many, "pump")] == ["1", "2", "3"]


def test_synonyms_work_in_both_directions_and_need_the_whole_phrase_in_one_line() -> None:
    entries = [
        _symptom("apart", "pump does not prime", "motor may start late"),
        _symptom("dead", "motor stands still"),
        _symptom("phrase", "motor does not start"),
    ]
    index = build(entries, [("does not start", "stands still")])
    assert [result.entry.href for result in find(index, "motor stands still")] == ["dead", "phrase"]
    assert [result.entry.href for result in find(index, "motor does not start")] == ["phrase", "dead", "apart"]


def test_last_word_is_completed_only_while_it_is_typed() -> None:
    assert find(INDEX, "gatew")
    assert not find(INDEX, "gatew ")


def test_a_known_word_is_not_corrected() -> None:
    index = build([_symptom("fuse", "fuse"), _symptom("fume", "fume")], ())
    assert [result.entry.href for result in find(index, "fume ")] == ["fume"]
    assert [result.entry.href for result in find(index, "fusee ")] == ["fuse"]


def _pump(number: int) -> Entry:
    return Entry(str(number), "procedure", "Pump", "", "", (), (), (), "approved", ())


def _symptom(href: str, *texts: str) -> Entry:
    symptoms = tuple(Symptom(text, ()) for text in texts)
    return Entry(href, "procedure", "Title", "", "", (), symptoms, (), "approved", ())
