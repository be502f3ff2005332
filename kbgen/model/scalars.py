"""Single values: from the author's text to a word, number, time, date or name."""

from __future__ import annotations

import datetime
import difflib
import math
import re
from collections.abc import Callable
from enum import Enum
from typing import Any

from kbgen.model.shape import ScalarShape
from kbgen.model.values import (
    ID_MAX_LENGTH,
    ID_PATTERN,
    Duration,
    Id,
    PathText,
    Period,
    Quantity,
    Text,
    parse_duration,
    parse_period,
    parse_quantity,
)
from kbgen.place import Span
from kbgen.source.tree import Scalar

_ID = re.compile(ID_PATTERN)
_NUMBER = re.compile(r"^-?\d+(\.\d+)?$")
_DATE = re.compile(r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$")
_WORDS = {"yes": True, "true": True, "no": False, "false": False}


class ScalarError(ValueError):
    """A value that does not fit; ``expected`` says what belongs there, ``help`` how to mend it."""

    def __init__(self, expected: str, help: str = "") -> None:
        super().__init__(expected)
        self.expected = expected
        self.help = help


def scalar_value(shape: ScalarShape, node: Scalar) -> Any:
    """Turn the author's text into the value that the shape asks for; raise ScalarError if it does not fit."""
    if issubclass(shape.type, Text):
        return _text(shape, node)
    if issubclass(shape.type, Enum):
        return _choice(shape.type, node.text)
    return _READERS[shape.type](shape, node.text.strip())


def neutral_scalar(shape: ScalarShape, at: Span) -> Any:
    """Stand in for a value that is missing or does not fit."""
    if issubclass(shape.type, Text):
        return shape.type.of("", at)
    if issubclass(shape.type, Enum):
        return next(iter(shape.type))
    return _NEUTRAL[shape.type]


def _text(shape: ScalarShape, node: Scalar) -> Text:
    assert issubclass(shape.type, Text)
    text = node.text.strip()
    if issubclass(shape.type, Id) and (not _ID.match(text) or len(text) > ID_MAX_LENGTH):
        raise ScalarError(
            "a permanent name has small letters, digits and single hyphens, at most 60 in all",
            f"Write it as “{_as_id(text)}”." if _as_id(text) else "",
        )
    if issubclass(shape.type, PathText):
        _refuse_path(text)
    return shape.type.of(text, node.at)


def _as_id(text: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")[:ID_MAX_LENGTH]


def _refuse_path(text: str) -> None:
    parts = text.split("/")
    if "\\" in text or ":" in text or ".." in parts or "" in parts or not text.isprintable():
        raise ScalarError(
            "a path goes down from the folder of this file, with / between folders",
            "Keep pictures beside the procedure.",
        )


def _choice(words: type[Enum], text: str) -> Enum:
    try:
        return words(text.strip())
    except ValueError:
        known = [str(one.value) for one in words]
        near = difflib.get_close_matches(text, known, n=1)
        help = f"Did you mean “{near[0]}”?" if near else ""
        raise ScalarError("one of these belongs here: " + ", ".join(known), help) from None


def _number(shape: ScalarShape, text: str) -> float:
    if not _NUMBER.match(text):
        raise ScalarError("a number belongs here, with a point before decimals")
    number = float(text)
    if not math.isfinite(number):
        raise ScalarError("a number of ordinary size belongs here")
    return _in_range(shape, number)


def _whole(shape: ScalarShape, text: str) -> int:
    if not re.fullmatch(r"-?\d{1,9}", text):
        raise ScalarError("a whole number belongs here")
    return int(_in_range(shape, int(text)))


def _in_range(shape: ScalarShape, number: float) -> float:
    if shape.above_zero and number <= 0:
        raise ScalarError("the number must be above zero")
    if shape.at_most is not None and not 0 <= number <= shape.at_most:
        raise ScalarError(f"the number must be between 0 and {shape.at_most:g}")
    return number


def _yes_or_no(shape: ScalarShape, text: str) -> bool:
    try:
        return _WORDS[text.lower()]
    except KeyError:
        raise ScalarError("yes or no belongs here") from None


def _date(shape: ScalarShape, text: str) -> datetime.date:
    try:
        if _DATE.match(text):
            return datetime.date.fromisoformat(text)
    except ValueError:
        pass
    raise ScalarError("a date belongs here, as year-month-day, for example 2026-09-14")


def _parsed(parse: Callable[[str], Any]) -> Callable[[ScalarShape, str], Any]:
    def read(shape: ScalarShape, text: str) -> Any:
        try:
            return parse(text)
        except ValueError as error:
            raise ScalarError(f"here belongs {error}") from None

    return read


_READERS: dict[type, Callable[[ScalarShape, str], Any]] = {
    int: _whole,
    float: _number,
    bool: _yes_or_no,
    datetime.date: _date,
    Quantity: _parsed(parse_quantity),
    Duration: _parsed(parse_duration),
    Period: _parsed(parse_period),
}

_NEUTRAL: dict[type, Any] = {
    int: 1,
    float: 1.0,
    bool: False,
    datetime.date: datetime.date(2000, 1, 1),
    Quantity: Quantity(0.0, "", "0"),
    Duration: Duration(0, "0 s"),
    Period: Period(12, "12 months"),
}
