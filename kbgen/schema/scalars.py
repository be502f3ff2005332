"""JSON Schema of single values.

An editor hands numbers, yes and no over in their own type, the decoder gets them as text; both are accepted here. The
range of a number that stands in quotes is left to the decoder. Yes and no pass as text by way of a condition, so that
editors do not propose them wherever text belongs.
"""

from __future__ import annotations

import datetime
from collections.abc import Callable
from enum import Enum
from typing import Any

from kbgen.model.shape import ScalarShape
from kbgen.model.values import ID_MAX_LENGTH, ID_PATTERN, Duration, Id, PathText, Period, Quantity, Text

Schema = dict[str, Any]

_PATH = r"^(?!\.\.(/|$))[^\\:/]+(/(?!\.\.(/|$))[^\\:/]+)*$"
_WHOLE = r"^\s*-?[0-9]{1,9}\s*$"
_NUMBER = r"^\s*-?[0-9]+(\.[0-9]+)?\s*$"
_YES_OR_NO = r"^\s*([Yy][Ee][Ss]|[Nn][Oo]|[Tt][Rr][Uu][Ee]|[Ff][Aa][Ll][Ss][Ee])\s*$"
_DATE = r"^\s*[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])\s*$"
_QUANTITY = r"^\s*[-+−]?[0-9]+(\.[0-9]+)?([eE][-+]?[0-9]+)?\s*(\S.*)?$"
_DURATION = r"^\s*([0-9]+(\.[0-9]+)?\s*(s|min|h|d)(?![a-z])\s*)+$"
_PERIOD = r"^\s*0*[1-9][0-9]*\s*(month|months|year|years)\s*$"

_NAME_MEANING = f"A permanent name has small letters, digits and single hyphens, at most {ID_MAX_LENGTH} in all."
_QUANTITY_MEANING = "A number belongs here, with a unit behind it where one belongs, for example 12.5 V."


def scalar_schema(shape: ScalarShape) -> Schema:
    """What may stand where a single value belongs."""
    if issubclass(shape.type, Text):
        return _text(shape.type)
    if issubclass(shape.type, Enum):
        return {"enum": [one.value for one in shape.type]}
    return _SCHEMAS[shape.type](shape)


def _text(kind: type[Text]) -> Schema:
    if issubclass(kind, PathText):
        return {"type": "string", **_pattern(_PATH, "A path goes down from this file's folder, as pictures/a.svg.")}
    written: Schema = {"type": ["string", "number"]}
    if issubclass(kind, Id):
        written |= {**_pattern(ID_PATTERN, _NAME_MEANING), "maxLength": ID_MAX_LENGTH, "minimum": 0}
    return {"if": {"type": "boolean"}, "else": written}


def _pattern(pattern: str, meaning: str) -> Schema:
    """A pattern, and what editors that know the word for it say in its place."""
    return {"pattern": pattern, "patternErrorMessage": meaning}


def _numeric(kind: str, pattern: str, meaning: str) -> Callable[[ScalarShape], Schema]:
    def make(shape: ScalarShape) -> Schema:
        schema: Schema = {"type": [kind, "string"], **_pattern(pattern, meaning)}
        if shape.above_zero:
            schema["exclusiveMinimum"] = 0
        if shape.at_most is not None:
            schema |= {"minimum": 0, "maximum": shape.at_most}
        return schema

    return make


def _string(pattern: str, meaning: str) -> Callable[[ScalarShape], Schema]:
    return lambda shape: {"type": "string", **_pattern(pattern, meaning)}


_SCHEMAS: dict[type, Callable[[ScalarShape], Schema]] = {
    int: _numeric("integer", _WHOLE, "A whole number belongs here."),
    float: _numeric("number", _NUMBER, "A number belongs here, with a point before decimals."),
    bool: lambda shape: {"anyOf": [{"enum": ["yes", "no", True, False]}, {"type": "string", "pattern": _YES_OR_NO}]},
    datetime.date: _string(_DATE, "A date belongs here, as year-month-day, for example 2026-09-14."),
    Quantity: lambda shape: {"type": ["number", "string"], **_pattern(_QUANTITY, _QUANTITY_MEANING)},
    Duration: _string(_DURATION, "A time with its unit belongs here, for example 90 s, 5 min or 1 h 30 min."),
    Period: _string(_PERIOD, "An interval in months or years belongs here, for example 12 months."),
}
