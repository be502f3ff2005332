import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbgen.search import tables
from kbgen.search.normalise import composed, fold, singular, terms, words

SOME_WORDS = st.sampled_from(
    [
        "the",
        "not",
        "24",
        "0.5",
        "2,5",
        "V",
        "volts",
        "%",
        "°C",
        "it's",
        "doesn't",
        "Ω",
        "½",
        "K-214/2",
        "series",
        "buses",
    ]
)
TEXTS = st.one_of(
    st.text(max_size=30),
    st.text(alphabet="aAeEsSxXzZ 0159.,'’-/%°CVkΩ½²ßéİΣ", max_size=30),
    st.lists(SOME_WORDS, max_size=8).map(" ".join),
)


@given(TEXTS)
def test_normalising_twice_changes_nothing(text: str) -> None:
    once = terms(text)
    assert terms(" ".join(once)) == once


@given(TEXTS)
def test_places_lie_within_the_text_and_rise(text: str) -> None:
    found = words(text)
    assert all(0 <= word.start < word.end <= len(composed(text)) for word in found)
    assert [word.start for word in found] == sorted(word.start for word in found)


@given(TEXTS)
def test_case_and_composition_make_no_difference(text: str) -> None:
    assert terms(unicodedata.normalize("NFD", text)) == terms(text)
    if text.isascii():
        assert terms(text.upper()) == terms(text.lower()) == terms(text)


@given(st.text(alphabet="abcehinosuxyz", max_size=12))
def test_singular_of_a_singular_is_itself(word: str) -> None:
    assert singular(singular(word)) == singular(word)


@given(st.text(max_size=20))
def test_folding_twice_changes_nothing(text: str) -> None:
    assert fold(fold(text)) == fold(text)


def test_different_parts_stay_different() -> None:
    parts = (
        "bear bearing brake break couple coupling fit fitting gas glass house housing lens lever leveller press "
        "pressure relay roll roller screw seal sealing shaft spring switch valve vane wire wiring"
    )
    names = parts.split()
    assert len({singular(name) for name in names}) == len(names)


def test_words_that_turn_a_meaning_round_are_kept_and_needed() -> None:
    assert {"no", "not", "off", "on", "without"}.isdisjoint(tables.STOP | tables.WEAK)
    assert terms("no not off on without") == ["no", "not", "off", "on", "without"]


@pytest.mark.parametrize("table", [tables.STOP, tables.WEAK, tables.NOT, tables.UNITS, tables.SINGULAR])
def test_tables_hold_folded_words(table: frozenset[str]) -> None:
    assert all(fold(word) == word for word in table)


def test_units_are_listed_in_the_singular_and_lead_to_themselves() -> None:
    assert all(singular(spelling) == spelling for spelling in tables.UNITS)
    assert all(tables.UNITS[unit] == unit for unit in tables.UNITS.values())
