"""How large each node and label must be to hold its words, and where the words sit in it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

from kbgen.draw import proportions as p
from kbgen.draw.chart import Node, Shape, Stretch, Tone
from kbgen.draw.drawing import Line, Point
from kbgen.draw.measure import BOLD, REGULAR, even_fill, fill, pieces, space_width, text_width

_SPACE = space_width(p.FONT)
_NUMBER_GAP = 6.0


@dataclass(frozen=True)
class Sized:
    """Size of a box, its lines and the corner of its first mark, relative to its centre."""

    width: float
    height: float
    lines: tuple[Line, ...]
    mark: Point = (0.0, 0.0)


@dataclass(frozen=True)
class _Insets:
    """Room a shape keeps around its text, beyond which its outline may run."""

    left: float
    right: float
    top: float
    bottom: float


_INSETS = {
    Shape.PROCESS: _Insets(13, 13, 9, 9),
    Shape.TERMINATOR: _Insets(18, 18, 10, 10),
    Shape.MANUAL: _Insets(12 + p.SLANT, 12 + p.SLANT, 9, 9),
    Shape.INPUT: _Insets(13, 13, 7 + p.SLANT, 9),
    Shape.PREDEFINED: _Insets(11 + p.BAR, 11 + p.BAR, 9, 9),
    Shape.PREPARATION: _Insets(8 + p.POINT, 8 + p.POINT, 9, 9),
    Shape.DELAY: _Insets(13, 4 + p.BULGE, 9, 9),
}
_MIN_WIDTH = 104.0
_MIN_HEIGHT = 48.0
_DIAMONDS = tuple(
    (width, height)
    for width, height in (
        (136, 68), (152, 80), (168, 92), (184, 104), (196, 116), (204, 128), (212, 140),
        (220, 152), (228, 166), (236, 182), (244, 200), (252, 220), (264, 244), (280, 280),
        (300, 320), (340, 380), (400, 460), (480, 600), (560, 900),
    )
)  # fmt: skip


def mark_count(node: Node) -> int:
    """How many glyphs a node shows: a hazard, its stretch, and how it ends."""
    return node.hazard + (node.stretch is not Stretch.UNSTATED) + (node.tone is not Tone.PLAIN)


def marks_length(count: int) -> float:
    """Length of a row or column of glyphs, in pixels."""
    return count * p.MARK_STEP - 2 if count else 0.0


def size_node(node: Node) -> Sized:
    """Size of a node for its shape, words and marks.

    Raises ValueError for a number or a question too long to show.
    """
    if node.shape is Shape.DECISION:
        return _diamond(node.text, node.number, mark_count(node))
    return _box(node.shape, node.text, node.number, mark_count(node))


def _words(text: str, number: str, limit: float) -> tuple[list[str], list[float]]:
    """Words and widths, the number's room counted with the first word."""
    lead = _lead(number)
    words = pieces(text, p.FONT, REGULAR, limit - lead)
    widths = [text_width(word, p.FONT) for word in words]
    if not words:
        return [""], [lead]
    widths[0] += lead
    return words, widths


def _lead(number: str) -> float:
    width = text_width(number, p.FONT, BOLD) + _NUMBER_GAP if number else 0.0
    if width > p.TEXT_LIMIT / 2:
        raise ValueError(f"the number {number!r} is too long to show in a box")
    return width


@lru_cache(maxsize=20_000)
def _box(shape: Shape, text: str, number: str, marks: int) -> Sized:
    inset = _INSETS[shape]
    words, widths = _words(text, number, p.TEXT_LIMIT)
    spans = even_fill(widths, _SPACE, p.TEXT_LIMIT)
    wide = [_span_width(widths, span) for span in spans]
    column = p.MARK + p.MARK_GAP if marks else 0.0
    width = max(_MIN_WIDTH, max(wide) + column + inset.left + inset.right)
    high = max(len(spans) * p.LINE, marks_length(marks))
    height = max(_MIN_HEIGHT, high + inset.top + inset.bottom)
    x = (inset.left + column - inset.right) / 2
    middle = (inset.top - inset.bottom) / 2
    mark = (inset.left - width / 2, middle - marks_length(marks) / 2)
    return Sized(_even(width), _even(height), _lines(words, spans, wide, x, middle), mark)


def _even(length: float) -> float:
    """Next even whole number of pixels, so that centres fall on whole pixels."""
    return 2.0 * -(-length // 2)


def _span_width(widths: list[float], span: tuple[int, int]) -> float:
    first, last = span
    return sum(widths[first:last]) + _SPACE * (last - first - 1)


def _lines(
    words: list[str], spans: list[tuple[int, int]], wide: list[float], x: float, middle: float
) -> tuple[Line, ...]:
    top = middle - (len(spans) - 1) * p.LINE / 2 + p.BASELINE
    return tuple(
        Line(" ".join(words[a:b]), x, top + row * p.LINE, width)
        for row, ((a, b), width) in enumerate(zip(spans, wide, strict=True))
    )


@lru_cache(maxsize=20_000)
def _diamond(text: str, number: str, marks: int) -> Sized:
    words, widths = _words(text, number, p.TEXT_LIMIT)
    area = (sum(widths) + _SPACE * len(widths)) * p.LINE
    for width, height in _DIAMONDS:
        if width * height / 2 < area or width / 2 < max(widths):
            continue
        for rows in range(1, int(height // p.LINE)):
            room = _diamond_room(width, height, rows, bool(marks))
            spans = fill(widths, _SPACE, room)
            if spans is not None and len(spans) + bool(marks) == rows:
                return _diamond_sized(
                    width, height, _span_lines(words, widths, spans, marks), marks
                )
    raise ValueError(f"a question of {len(text)} characters is too long for a decision")


def _diamond_room(width: float, height: float, rows: int, marked: bool) -> Callable[[int], float]:
    """Width inside the outline at each line of text, the first row being left to the marks."""

    def room(line: int) -> float:
        row = line + marked
        off = abs(row - (rows - 1) / 2) * p.LINE + p.LINE * 0.36
        return width * (1 - 2 * off / height) - 16

    return room


def _diamond_sized(width: float, height: float, lines: tuple[Line, ...], marks: int) -> Sized:
    top = (lines[0].y - p.BASELINE) - p.LINE / 2
    return Sized(width, height, lines, (-marks_length(marks) / 2, top - p.MARK))


def _span_lines(
    words: list[str], widths: list[float], spans: list[tuple[int, int]], marks: int
) -> tuple[Line, ...]:
    wide = [_span_width(widths, span) for span in spans]
    return _lines(words, spans, wide, 0.0, p.LINE / 2 if marks else 0.0)


@lru_cache(maxsize=20_000)
def size_label(text: str, limit: float) -> Sized:
    """Size of an answer's label whose lines are at most `limit` pixels wide."""
    words = pieces(text, p.LABEL_FONT, BOLD, limit)
    widths = [text_width(word, p.LABEL_FONT, BOLD) for word in words]
    space = space_width(p.LABEL_FONT, BOLD)
    spans = even_fill(widths, space, limit)
    wide = [sum(widths[a:b]) + space * (b - a - 1) for a, b in spans]
    top = -(len(spans) - 1) * p.LABEL_LINE / 2 + p.LABEL_BASELINE
    lines = tuple(
        Line(" ".join(words[a:b]), 0.0, top + row * p.LABEL_LINE, width)
        for row, ((a, b), width) in enumerate(zip(spans, wide, strict=True))
    )
    return Sized(_even(max(wide) + 2 * p.LABEL_PAD), _even(len(spans) * p.LABEL_LINE + 2), lines)
