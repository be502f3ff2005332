"""Text -> the words that are compared. normalise.js does the same; the vectors in tests/vectors hold the two together.

Words are runs of letters and digits, in lower case and without accents, in the singular. A decimal number stays whole,
and a number takes the unit that follows it ("24 V", "24V" and "24 volts" are all "24v").
"""

import re
import unicodedata
from functools import lru_cache
from typing import NamedTuple

from kbgen.search.tables import LETTERS, NOT, SINGULAR, STOP, UNITS

ALNUM = r"[^\W_\U00010000-\U0010FFFF]"
"""A letter or digit of the Basic Multilingual Plane: beyond it, Python and JavaScript count characters differently."""

_NUMBER = rf"[0-9]+(?:[.,][0-9]+)+{ALNUM}*"
_APOSTROPHE = "['’‘`´]"
_SYMBOL = rf"°[CcFf](?!{ALNUM})|[℃℉%]"
_CHUNK = re.compile(rf"{_NUMBER}|{ALNUM}+(?:{_APOSTROPHE}{ALNUM}+)*|{_SYMBOL}")
_PIECE = re.compile(rf"[0-9]+(?:\.[0-9]+)+{ALNUM}*|{ALNUM}+")
_DECIMAL = re.compile("[0-9]+[.,][0-9]")
_NEGATION = re.compile(f"[nN]{_APOSTROPHE}[tT]$")
_POSSESSIVE = re.compile(f"{_APOSTROPHE}[sS]$")
_BARE_NUMBER = re.compile("[0-9]+(?:[.][0-9]+)*")
_NUMBER_WITH_UNIT = re.compile("([0-9]+(?:[.][0-9]+)*)([^0-9.]+)")
_LETTERS = str.maketrans(dict(LETTERS))


class Word(NamedTuple):
    """A normalised word and the part of the composed text (see `composed`) that it comes from."""

    term: str
    start: int
    end: int


def composed(text: str) -> str:
    """Return the text in Unicode normal form C, the form that the places in `Word` count in."""
    return text if text.isascii() else unicodedata.normalize("NFC", text)


def fold(text: str) -> str:
    """Return the text in lower case, with accents and other decorations of letters removed."""
    if text.isascii():
        return text.lower()
    return _without_marks(_without_marks(text).lower()).translate(_LETTERS)


def singular(word: str) -> str:
    """Return the singular of a folded plural; other endings stay, so that "bearing" never becomes "bear"."""
    if word in SINGULAR:
        return SINGULAR[word]
    if len(word) < 4 or not word.endswith("s") or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith(("sses", "shes", "ches", "xes", "zzes")):
        return word[:-2]
    return word[:-1]


def words(text: str) -> list[Word]:
    """Return the normalised words of a text in their order, each with its place."""
    found = [
        Word(term, match.start(), match.end())
        for match in _CHUNK.finditer(composed(text))
        for term in _terms_of_chunk(match.group())
    ]
    return _with_units(found)


def terms(text: str) -> list[str]:
    """Return the normalised words of a text without their places."""
    return [word.term for word in words(text)]


@lru_cache(maxsize=65536)
def _terms_of_chunk(chunk: str) -> tuple[str, ...]:
    if chunk == "%":
        return ("percent",)
    owner = _POSSESSIVE.sub("", chunk)
    if _NEGATION.search(owner):
        return ("not",)
    plain = fold(owner)
    if _DECIMAL.match(chunk):
        plain = plain.replace(",", ".")
    pieces = (piece for piece in _PIECE.findall(plain) if piece not in STOP)
    return tuple(term for piece in pieces if (term := _term(piece)) not in STOP)


def _term(piece: str) -> str:
    amount = _NUMBER_WITH_UNIT.fullmatch(piece)
    if amount and (unit := UNITS.get(singular(amount[2]))):
        return amount[1] + unit
    term = singular(piece)
    return "not" if term in NOT else term


def _with_units(found: list[Word]) -> list[Word]:
    joined: list[Word] = []
    for word in found:
        unit = UNITS.get(word.term)
        if unit and joined and _BARE_NUMBER.fullmatch(joined[-1].term):
            number = joined.pop()
            word = Word(number.term + unit, number.start, word.end)
        joined.append(word)
    return joined


def _without_marks(text: str) -> str:
    return "".join(c for c in unicodedata.normalize("NFKD", text) if not unicodedata.category(c).startswith("M"))
