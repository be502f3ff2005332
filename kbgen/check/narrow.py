"""A part of a text as a place in its file."""

from __future__ import annotations

from kbgen.model.values import Text
from kbgen.place import Span


def part_of(text: Text, seen: str, start: int, end: int) -> Span:
    """The place of a part of a text as it is seen; that of the whole text where markup or layout hides the columns."""
    at = text.at
    quote = (at.end_column - at.column - len(text)) // 2
    is_plain = seen == text and at.line == at.end_line and at.end_column - at.column == len(text) + 2 * quote
    if not is_plain or quote not in (0, 1):
        return at
    return at._replace(column=at.column + quote + start, end_column=at.column + quote + end)
