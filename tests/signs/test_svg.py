import re
import xml.etree.ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbgen.signs.register import codes
from kbgen.signs.svg import svg, symbol_sheet, use
from kbgen.signs.symbols import SYMBOLS

NUMBERS_PER_COMMAND = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}
NUMBER = re.compile(r"[-+]?(?:\d+\.\d*|\.\d+|\d+)(?:e[-+]?\d+)?")
VALUE, FLAG = rf"[\s,]*{NUMBER.pattern}", r"[\s,]*[01]"
ARC = re.compile(3 * VALUE + 2 * FLAG + 2 * VALUE + r"[\s,]*")


def numbers_of(command: str, arguments: str) -> int:
    """Counts arguments; the two flags of an arc may be written without a separator."""
    if command != "A":
        return len(NUMBER.findall(arguments))
    count, rest = 0, arguments
    while match := ARC.match(rest):
        count, rest = count + 7, rest[match.end() :]
    return count if not rest.strip() else -1


@pytest.mark.parametrize("code", codes())
def test_path_data_is_complete(code: str) -> None:
    path = SYMBOLS[code].path
    assert re.fullmatch(r"[MmLlHhVvCcSsQqTtAaZz\d\s.,+-]+", path)
    for command, arguments in re.findall(r"([A-Za-z])([^A-Za-z]*)", path):
        expected = NUMBERS_PER_COMMAND[command.upper()]
        found = numbers_of(command.upper(), arguments)
        assert found == 0 if expected == 0 else found > 0 and found % expected == 0, (command, arguments)


@pytest.mark.parametrize("code", codes())
def test_sign_is_well_formed_hidden_and_self_contained(code: str) -> None:
    text = svg(code)
    root = ET.fromstring(text)
    assert root.get("aria-hidden") == "true"
    assert not re.search(r"href|url\(|http|<style|<script|\bon\w+=", text)
    assert any(path.get("d") == SYMBOLS[code].path for path in root.iter("path"))
    assert len(text) < 2700


@pytest.mark.parametrize(
    ("code", "outline", "colours"),
    [
        ("W012", "path", {"#F9A800", "#000"}),
        ("M009", "circle", {"#005387", "#fff"}),
        ("P010", "circle", {"#9B2423", "#000", "#fff"}),
        ("E003", "rect", {"#237F52", "#fff"}),
    ],
)
def test_outline_and_colours_of_each_shape(code: str, outline: str, colours: set[str]) -> None:
    text = svg(code)
    assert set(re.findall(r"#[0-9A-Fa-f]{3,6}", text)) == colours
    assert ET.fromstring(text)[0].tag == outline


def test_every_colour_is_a_variable_of_the_site() -> None:
    painted = re.findall(r'(?:fill|stroke)="([^"]+)"', "".join(map(svg, codes())))
    assert all(colour == "none" or colour.startswith("var(--kb-sign-") for colour in painted)


def test_bar_is_drawn_over_the_prohibited_thing() -> None:
    assert [child.tag for child in ET.fromstring(svg("P031"))] == ["circle", "path", "g"]


def test_use_points_into_the_sheet_of_the_same_page() -> None:
    sheet = ET.fromstring(symbol_sheet(codes()))
    ids = [symbol.get("id") for symbol in sheet]
    targets = [ET.fromstring(use(code))[0].get("href") for code in codes()]
    assert targets == [f"#{name}" for name in ids]


def test_sheet_draws_what_the_inline_sign_draws() -> None:
    def inside(element: ET.Element) -> list[bytes]:
        return [ET.tostring(child) for child in element]

    for symbol, code in zip(ET.fromstring(symbol_sheet(codes())), codes(), strict=True):
        assert inside(symbol) == inside(ET.fromstring(svg(code)))


@given(st.lists(st.sampled_from(codes())))
def test_sheet_depends_only_on_which_codes_are_shown(shown: list[str]) -> None:
    sheet = symbol_sheet(shown)
    assert sheet == symbol_sheet(set(shown)) == symbol_sheet(reversed(shown))
    assert sheet.count("<symbol ") == len(set(shown))


def test_ten_uses_are_cheaper_than_two_signs() -> None:
    assert 10 * len(use("W012")) < 2 * max(len(svg(code)) for code in codes())


@pytest.mark.parametrize("draw", [svg, use, lambda code: symbol_sheet([code])])
def test_unknown_code_is_refused(draw: object) -> None:
    assert callable(draw)
    with pytest.raises(KeyError):
        draw('W999"><script>')
