"""Words, tokens and searches on which the rules of language stand."""

from __future__ import annotations

import re

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from kbgen.language.lookup import lookup, lookup_lowered, tokens
from kbgen.language.terms import terms_of
from kbgen.language.verbs import VERBS, base_form
from kbgen.language.words import may_exceed, sentences, word_count

TEXTS = st.lists(st.text(alphabet="abAB .\u0130ß", max_size=12), max_size=8)


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("", 0),
        ("Close the valve.", 3),
        ("Set 5.5 bar at 20 °C and 400 V AC.", 6),
        ("Set 5.5bar at 20°C and 1,000 V.", 6),
        ("4 to 20 mA", 3),
        ("−20 to +30 °C", 3),
        ("10 parts at 2 mm/s", 4),
        ("Reset RM 31 and PLT 7-A.", 4),
        ("Open {supply.points} – slowly – by hand.", 5),
        ("Re-tighten the pre-set U–V clamp (once).", 6),
        ("L1, L2 and L3", 4),
        ("½ × 3 ÷ 4 = ?", 3),
    ],
)
def test_words_are_counted_as_they_are_read(text: str, count: int) -> None:
    assert word_count(text) == count


@given(st.text(alphabet="ab1 V{}-.\n", max_size=40), st.integers(1, 8))
@example("1-1", 1)
@example("{}{}", 1)
@settings(max_examples=1000)
def test_a_text_that_cannot_be_too_long_is_not(text: str, limit: int) -> None:
    assert may_exceed(text, limit) or word_count(text) <= limit


def test_sentences_end_where_another_begins() -> None:
    text = "It is 0.4 %. “Close” it! Is it off, e.g. at 5 bar? 400 V are left."
    assert list(sentences(text)) == ["It is 0.4 %.", "“Close” it!", "Is it off, e.g. at 5 bar?", "400 V are left."]


@given(TEXTS, st.lists(st.text(alphabet="abAB .", min_size=1, max_size=3), max_size=4))
def test_a_lookup_finds_what_a_look_at_each_text_finds(texts: list[str], pieces: list[str]) -> None:
    assert lookup(texts).containing(pieces) == [text for text in texts if any(piece in text for piece in pieces)]
    pattern = re.compile("|".join(map(re.escape, pieces)) or "(?!)")
    assert lookup(texts).matching(pattern) == lookup(texts).containing(pieces)
    low = [piece.lower() for piece in pieces]
    assert lookup_lowered(texts).containing(low) == [one for one in texts if any(piece in one.lower() for piece in low)]


@given(
    st.lists(st.text(alphabet="abes -\u00fc", min_size=1, max_size=6), min_size=1, max_size=4),
    st.text(alphabet="abesABES -,.\u00fc", max_size=30),
)
def test_no_other_word_is_missed_for_want_of_its_tokens(also: list[str], text: str) -> None:
    terms = terms_of([("zzz", also)])
    seen = " ".join(text.split())
    words = {found.word for found in terms.find(seen)}
    present = terms.among(frozenset(tokens(seen)))
    assert not words or any(seen in lookup_lowered([seen]).containing([one]) for one in present)


def test_the_verbs_are_a_sorted_list_of_single_words() -> None:
    assert len(VERBS) > 300
    assert all(verb.islower() and verb.replace("-", "").isascii() and " " not in verb for verb in VERBS)


@pytest.mark.parametrize(
    ("word", "base"),
    [("opens", "open"), ("closing", "close"), ("stopped", "stop"), ("presses", "press"), ("valve", None), ("s", None)],
)
def test_the_base_form_of_a_verb(word: str, base: str | None) -> None:
    assert base_form(word, VERBS) == base
