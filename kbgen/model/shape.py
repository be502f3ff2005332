"""The shape of the format, read off the dataclasses: the decoder and the JSON Schema both follow it."""

from __future__ import annotations

import dataclasses
import datetime
import types
from dataclasses import dataclass
from enum import Enum
from functools import cache
from typing import Annotated, Any, Union, get_args, get_origin, get_type_hints

from kbgen.model.record import KeyNotes, Record
from kbgen.model.values import Duration, Kind, Period, Quantity, Text

SCALARS = (Text, int, float, bool, datetime.date, Quantity, Duration, Period)


@dataclass(frozen=True)
class ScalarShape:
    """A single value of a type; ``kind`` is what a name or reference stands for."""

    type: type
    kind: Kind | None = None
    above_zero: bool = False
    at_most: float | None = None


@dataclass(frozen=True)
class ListShape:
    """A list; ``word`` may stand in place of an empty one."""

    item: Shape
    word: str | None = None
    at_least: int = 0


@dataclass(frozen=True)
class MapShape:
    """A group whose keys the author chooses."""

    key: ScalarShape
    value: ScalarShape


@dataclass(frozen=True)
class KeyShape:
    """One key of a record: its name in the file, its attribute, its value and its meaning."""

    name: str
    attribute: str
    shape: Shape
    required: bool
    default: Any
    doc: str


@dataclass(frozen=True)
class RecordShape:
    """A group of fixed keys. The keys are looked up late, since records may hold one another."""

    type: type[Record]

    @property
    def keys(self) -> dict[str, KeyShape]:
        """The keys by their name in the file, in the order of their declaration."""
        return _keys(self.type)  # type: ignore[arg-type]  # asks the instances for a hash, not the class

    @property
    def doc(self) -> str:
        """What the record is."""
        return (self.type.__doc__ or "").strip()


@dataclass(frozen=True)
class UnionShape:
    """One of several records, told apart by the key that starts it."""

    choices: tuple[tuple[str, RecordShape], ...]


Shape = ScalarShape | ListShape | MapShape | RecordShape | UnionShape


@cache
def _keys(record: type[Record]) -> dict[str, KeyShape]:
    hints = get_type_hints(record, include_extras=True)
    fields = [field for field in dataclasses.fields(record) if "key" in field.metadata]
    start = getattr(record, "starts_with", None)
    fields.sort(key=lambda field: _place(field.name, start))
    return {shape.name: shape for shape in (_key_shape(field, hints[field.name]) for field in fields)}


def _place(attribute: str, start: str | None) -> int:
    """Order the keys of a step: its id, the word that starts it, then the rest as declared."""
    return {"id": 0, (start or "").replace("-", "_"): 1}.get(attribute, 2)


def _key_shape(field: dataclasses.Field[Any], hint: Any) -> KeyShape:
    notes: KeyNotes = field.metadata["key"]
    required = field.default is dataclasses.MISSING
    default = None if required else field.default
    name = notes.name or field.name.replace("_", "-")
    return KeyShape(name, field.name, _shape(hint, notes), required, default, notes.doc)


def _shape(hint: Any, notes: KeyNotes) -> Shape:
    origin = get_origin(hint)
    if origin is Annotated:
        base, kind = get_args(hint)
        return ScalarShape(base, kind)
    if origin in (Union, types.UnionType):
        return _one_of([one for one in get_args(hint) if one is not type(None)], notes)
    if origin is tuple:
        item = _shape(get_args(hint)[0], KeyNotes(""))
        return ListShape(item, notes.word, notes.at_least)
    if origin is dict:
        key, value = get_args(hint)
        return MapShape(_scalar(key, KeyNotes("")), _scalar(value, notes))
    if isinstance(hint, type) and issubclass(hint, Record):
        return RecordShape(hint)
    return _scalar(hint, notes)


def _one_of(hints: list[Any], notes: KeyNotes) -> Shape:
    if len(hints) == 1:
        return _shape(hints[0], notes)
    return UnionShape(tuple((one.starts_with, RecordShape(one)) for one in hints))


def _scalar(hint: Any, notes: KeyNotes) -> ScalarShape:
    if get_origin(hint) is Annotated:
        base, kind = get_args(hint)
        return ScalarShape(base, kind)
    if isinstance(hint, type) and issubclass(hint, (*SCALARS, Enum)):
        return ScalarShape(hint, None, notes.above_zero, notes.at_most)
    raise TypeError(f"no shape for {hint!r}")
