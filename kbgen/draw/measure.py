"""Text widths and line breaks without a browser, from a table of one font's advances.

Kerning is left out: it only ever narrows a line by a fraction of a pixel, so a line that fits
here fits in the browser. A character the font lacks counts as one em, wider than most
substitutes.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from functools import lru_cache
from importlib.resources import files

REGULAR, BOLD = 400, 700


def _load() -> tuple[int, dict[int, dict[str, int]]]:
    text = files("kbgen.draw").joinpath("fonts/widths.json").read_text(encoding="utf-8")
    table = json.loads(text)
    characters = table["characters"]
    weights = {w: dict(zip(characters, table[str(w)], strict=True)) for w in (REGULAR, BOLD)}
    return table["units_per_em"], weights


_EM, _ADVANCES = _load()
_SPACE = {weight: table[" "] for weight, table in _ADVANCES.items()}


@lru_cache(maxsize=50_000)
def word_units(word: str, weight: int) -> int:
    """Width of a string in font units."""
    table = _ADVANCES[weight]
    return sum([table.get(character, _EM) for character in word])


def text_width(text: str, size: float, weight: int = REGULAR) -> float:
    """Width of a string in pixels at a font size in pixels."""
    return word_units(text, weight) * size / _EM


def space_width(size: float, weight: int = REGULAR) -> float:
    """Width of a space in pixels."""
    return _SPACE[weight] * size / _EM


def pieces(text: str, size: float, weight: int, limit: float) -> list[str]:
    """The words of a text, a word wider than `limit` pixels cut into parts that are not.

    A part is at least one character, so a limit below one character's width is exceeded.
    """
    found: list[str] = []
    for word in text.split():
        while text_width(word, size, weight) > limit and len(word) > 1:
            keep = _fitting(word, size, weight, limit)
            found.append(word[:keep])
            word = word[keep:]
        found.append(word)
    return found


def _fitting(word: str, size: float, weight: int, limit: float) -> int:
    """How many leading characters fit, preferring to cut after a hyphen or a slash."""
    keep = len(word) - 1
    while keep > 1 and text_width(word[:keep], size, weight) > limit:
        keep -= 1
    for cut in range(keep, keep // 2, -1):
        if word[cut - 1] in "-/_":
            return cut
    return keep


def fill(
    widths: Sequence[float], space: float, room: Callable[[int], float]
) -> list[tuple[int, int]] | None:
    """Break words of the given widths into lines, each as full as `room(line)` pixels allow.

    Returns the first and past-the-last word of each line; None if a word does not fit its line.
    """
    lines: list[tuple[int, int]] = []
    first, used, available = 0, 0.0, room(0)
    for index, width in enumerate(widths):
        wanted = width if index == first else used + space + width
        if wanted > available and index > first:
            lines.append((first, index))
            first, wanted, available = index, width, room(len(lines))
        if wanted > available:
            return None
        used = wanted
    if first < len(widths):
        lines.append((first, len(widths)))
    return lines


def _constant(room: float) -> Callable[[int], float]:
    return lambda line: room


def even_fill(widths: Sequence[float], space: float, limit: float) -> list[tuple[int, int]]:
    """Break words into the fewest lines of `limit` pixels, then narrow them to even lengths.

    No width may exceed `limit`.
    """
    best = fill(widths, space, _constant(limit))
    if best is None:
        raise ValueError(f"a word is wider than {limit} px")
    low, high = 0.0, limit
    while len(best) > 1 and high - low > 4:
        middle = (low + high) / 2
        tried = fill(widths, space, _constant(middle))
        if tried is not None and len(tried) == len(best):
            best, high = tried, middle
        else:
            low = middle
    return best


def wrap(text: str, size: float, weight: int, limit: float) -> tuple[str, ...]:
    """Lines of a text no wider than `limit` pixels, as few and then as even as possible."""
    words = pieces(text, size, weight, limit)
    widths = [text_width(word, size, weight) for word in words]
    lines = even_fill(widths, space_width(size, weight), limit)
    return tuple(" ".join(words[a:b]) for a, b in lines)
