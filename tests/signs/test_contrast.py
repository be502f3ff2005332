"""Contrast of the style sheet by the formula of WCAG 2.2 (definitions of relative luminance and contrast ratio)."""

import re
from pathlib import Path

import pytest

from kbgen.signs.signal_word import SignalWord

CSS = (Path(__file__).parents[2] / "site_templates/css/signs.css").read_text(encoding="utf-8")
VARIABLES = dict(re.findall(r"(--kb-[a-z-]+): (#[0-9A-Fa-f]+);", CSS.split("}", 1)[0]))
TEXT_AA = 4.5
GRAPHIC_AA = 3.0


def luminance(colour: str) -> float:
    digits = colour[1:] if len(colour) == 7 else "".join(2 * digit for digit in colour[1:])
    channels = [int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def test_formula_on_published_pairs() -> None:
    # WCAG 2.2 gives 21:1 for black on white; #777 on white is the well-known near miss of AA at 4.48.
    assert contrast("#000", "#fff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)


@pytest.mark.parametrize("word", SignalWord)
def test_signal_word_is_readable_on_its_panel(word: SignalWord) -> None:
    panel = word.panel_class
    assert contrast(VARIABLES[f"--{panel}-back"], VARIABLES[f"--{panel}-text"]) >= TEXT_AA
    rule = re.search(rf"\.{panel} > \.kb-signal {{(.*?)}}", CSS, re.S)
    assert rule and f"background: var(--{panel}-back)" in rule[1] and f"color: var(--{panel}-text)" in rule[1]


@pytest.mark.parametrize(
    ("symbol", "ground"),
    [("black", "yellow"), ("white", "blue"), ("white", "green"), ("red", "white"), ("black", "white")],
)
def test_symbol_stands_out_from_its_sign(symbol: str, ground: str) -> None:
    assert contrast(VARIABLES[f"--kb-sign-{symbol}"], VARIABLES[f"--kb-sign-{ground}"]) >= GRAPHIC_AA


@pytest.mark.parametrize(
    ("name", "colour"), [("yellow", "#F9A800"), ("blue", "#005387"), ("red", "#9B2423"), ("green", "#237F52")]
)
def test_fallback_colours_in_the_drawings_match_the_style_sheet(name: str, colour: str) -> None:
    assert VARIABLES[f"--kb-sign-{name}"] == colour


def test_panels_differ_from_one_another() -> None:
    backs = [VARIABLES[f"--{word.panel_class}-back"] for word in SignalWord]
    assert len(set(backs)) == 4


def test_dark_page_gives_black_borders_a_white_edge() -> None:
    dark = re.search(r'^\[data-md-color-scheme="slate"\] {(.*?)}', CSS, re.S | re.M)
    assert dark and "--kb-sign-edge: #fff" in dark[1]


def test_print_relies_on_borders_and_words() -> None:
    printed = CSS.split("@media print", 1)[1]
    assert "background: none" in printed and "color: #000" in printed and "--kb-hazard-edge: #000" in printed
