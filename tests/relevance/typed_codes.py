"""Codes as people type them.

A way of typing comes with what it leaves of a code; all codes of which it leaves the same are meant.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import NamedTuple

from .corpora import Corpus
from .query import Query

_ALIKE = {"0": "oO", "1": "lI", "5": "S", "8": "B", "O": "0", "I": "1", "L": "1", "S": "5", "B": "8"}
_FOLDED = str.maketrans("OILSB", "01158")
_BETWEEN = (" ", "-", "_", ".", " - ", "–")
_CHANNELS = ("/ch2", "#2", "/2", " ch 2", "-K3", " #3", " axis 2", "/X")
_AROUND = ("error {}", "{} on the display", "fault code {}", "alarm {} again", "it shows {}", "{}?", "code: {}")


class Way(NamedTuple):
    """`typed` spells a code in this way, `left` is what remains of a code that could be told from it."""

    typed: Callable[[str, random.Random], str]
    left: Callable[[str], str]


def _bare(code: str) -> str:
    return re.sub("[^A-Z0-9]", "", code.upper())


def _pieces(code: str) -> list[str]:
    return re.findall("[A-Za-z]+|[0-9]+", code)


def _spaced(code: str, chance: random.Random) -> str:
    pieces = _pieces(code)
    if len(pieces) == 2 and len(pieces[1]) >= 4 and chance.random() < 0.3:
        pieces[1:] = [pieces[1][:2], pieces[1][2:]]
    text = pieces[0] + "".join(chance.choice(_BETWEEN) + piece for piece in pieces[1:])
    return chance.choice((str.upper, str.lower, str.title))(text)


def _solid(code: str, chance: random.Random) -> str:
    return chance.choice((str.upper, str.lower))("".join(_pieces(code)))


def _zeros(code: str, chance: random.Random) -> str:
    pieces = _pieces(code)
    numbers = [place for place, piece in enumerate(pieces) if piece.isdigit()]
    place = chance.choice([n for n in numbers if pieces[n].startswith("0")] or numbers)
    shorter = pieces[place].lstrip("0") or "0"
    pieces[place] = shorter if shorter != pieces[place] else "0" + shorter
    return "".join(pieces)


def _without_zeros(code: str) -> str:
    return "".join(piece.lstrip("0") or "0" if piece.isdigit() else piece for piece in _pieces(code.upper()))


def _after_letters(code: str) -> str:
    """What is left without the letters before the first digit; the letters after the number go too."""
    pieces = _pieces(code)
    start = next(place for place, piece in enumerate(pieces) if piece.isdigit())
    rest = pieces[start:]
    return "".join(rest[:-1] if len(rest) == 2 and start == 0 else rest)


def _look_alike(code: str, chance: random.Random) -> str:
    places = [place for place, sign in enumerate(code.upper()) if sign in _ALIKE]
    changed = list(code)
    for place in chance.sample(places, chance.randint(1, len(places))):
        changed[place] = chance.choice(_ALIKE[code[place].upper()])
    return "".join(changed)


def _can_look_alike(code: str) -> bool:
    return bool(set(code.upper()) & set(_ALIKE))


def _digits(code: str) -> str:
    return _without_zeros(_after_letters(code).upper())


WAYS: Mapping[str, Way] = {
    "exact": Way(lambda code, _: code, str),
    "separators and case": Way(_spaced, _bare),
    "run together": Way(_solid, _bare),
    "zeros dropped or added": Way(_zeros, _without_zeros),
    "digits only": Way(lambda code, chance: _after_letters(code), _digits),
    "look-alike characters": Way(_look_alike, lambda code: _bare(code).translate(_FOLDED)),
}


def code_queries(corpus: Corpus, codes: Sequence[str], chance: random.Random) -> Iterator[Query]:
    """Yield one query of each way for every code; codes with letters inside are a kind of their own."""
    left = {name: _by_left(corpus, way) for name, way in WAYS.items()}
    for code in codes:
        for name, way in WAYS.items():
            if name == "look-alike characters" and not _can_look_alike(code):
                continue
            text = way.typed(code, chance)
            kind = "code, letters inside" if _letters_inside(code) and name != "exact" else f"code, {name}"
            yield Query(corpus.name, kind, text, left[name][way.left(code)], all_meant=True)
        yield Query(corpus.name, "code with a channel", code + chance.choice(_CHANNELS), corpus.codes[code])
        yield Query(corpus.name, "code in a sentence", chance.choice(_AROUND).format(code), corpus.codes[code])


def _by_left(corpus: Corpus, way: Way) -> Mapping[str, frozenset[str]]:
    found: dict[str, frozenset[str]] = {}
    for code, entries in corpus.codes.items():
        found[way.left(code)] = found.get(way.left(code), frozenset()) | entries
    return found


def _letters_inside(code: str) -> bool:
    return len(_pieces(code)) > 2


def several_codes(corpus: Corpus, chance: random.Random, most: int) -> Iterator[Query]:
    """Yield two codes of one entry typed together; every entry that raises both is right."""
    raising = [entry for entry in corpus.entries if len(entry.codes) > 1]
    for entry in chance.choices(raising, k=most) if len(raising) * 3 > most else raising * 3:
        first, second = chance.sample([code.code for code in entry.codes], 2)
        text = first + chance.choice((" ", ", ", " and ", " + ", " / ")) + second
        right = corpus.codes[first] & corpus.codes[second]
        yield Query(corpus.name, "several codes", text, right, all_meant=True)
