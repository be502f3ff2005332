"""Widths agree with the font and the browser's rules; wrapping keeps every word and its limit."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from kbgen.draw.fonts.generate import TABLE, advances, width_table
from kbgen.draw.measure import BOLD, REGULAR, fill, pieces, text_width, wrap

FONTS = Path(__file__).parents[2] / "site_templates" / "fonts"
CHARACTERS = st.characters(codec="latin-1", categories=("L", "N", "P"))
WORDS = st.lists(st.text(CHARACTERS, min_size=1, max_size=30), max_size=20)


@pytest.mark.parametrize("weight", [REGULAR, BOLD])
def test_every_character_is_as_wide_as_in_the_font(weight: int) -> None:
    for character, units in advances(weight).items():
        assert text_width(character, 1000, weight) == units


def test_the_table_is_the_one_the_font_package_gives() -> None:
    assert json.loads(TABLE.read_text(encoding="utf-8")) == width_table()


@pytest.mark.parametrize("weight", [REGULAR, BOLD])
def test_the_web_font_holds_the_characters_of_the_table(weight: int) -> None:
    font = TTFont(FONTS / f"atkinson-hyperlegible-{weight}.woff2")
    cmap = font.getBestCmap()
    assert set(advances(weight)) <= {chr(code) for code in cmap}
    assert {"°", "Ω", "µ", "Δ", "±", "≤", "≥", "·", "×", "–", "—", "’", "“", "”"} <= {chr(c) for c in cmap}


def test_a_character_the_font_lacks_counts_as_one_em() -> None:
    assert text_width("漢", 16) == 16


@given(WORDS, st.floats(60, 400))
def test_wrapping_keeps_all_characters_within_the_limit(words: list[str], limit: float) -> None:
    text = " ".join(words)
    lines = wrap(text, 16, REGULAR, limit)
    assert "".join(lines).replace(" ", "") == "".join(text.split())
    assert all(text_width(line, 16) <= limit + 1e-6 for line in lines)


@given(WORDS, st.floats(60, 400))
def test_wrapping_takes_no_more_lines_than_filling_each_would(words: list[str], limit: float) -> None:
    parts = pieces(" ".join(words), 16, REGULAR, limit)
    filled: list[str] = []
    for part in parts:
        if filled and text_width(f"{filled[-1]} {part}", 16) <= limit - 1e-6:
            filled[-1] = f"{filled[-1]} {part}"
        else:
            filled.append(part)
    assert len(wrap(" ".join(words), 16, REGULAR, limit)) <= len(filled)


@given(st.lists(st.floats(1, 50), min_size=1, max_size=20))
def test_filling_uses_each_word_once_in_order(widths: list[float]) -> None:
    spans = fill(widths, 4, lambda line: 60 if line % 2 else 90)
    assert spans is not None
    assert [word for first, last in spans for word in range(first, last)] == list(range(len(widths)))


def test_a_word_too_wide_for_its_line_is_not_forced_in() -> None:
    assert fill([70.0], 4, lambda line: 60) is None


def test_a_long_word_is_cut_after_a_hyphen_where_it_can_be() -> None:
    first, *_ = pieces("pressure-compensated-variable-displacement", 16, REGULAR, 120)
    assert first.endswith("-")
