"""The two JSON Schemas of the format: one for procedures, one for shared tables."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from kbgen.model.decode import FORMAT
from kbgen.model.procedure import Procedure
from kbgen.model.record import Record
from kbgen.model.shape import KeyShape, ListShape, MapShape, RecordShape, ScalarShape, Shape, UnionShape
from kbgen.model.tables import Tables
from kbgen.schema.scalars import Schema, scalar_schema

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def procedure_schema() -> Schema:
    """The schema of a procedure file."""
    return _file_schema(Procedure)


def tables_schema() -> Schema:
    """The schema of a file of shared tables."""
    return _file_schema(Tables)


FILES = {
    "kbgen-procedure.schema.json": procedure_schema,
    "kbgen-tables.schema.json": tables_schema,
}


def as_text(schema: Schema) -> str:
    """A schema as it is written to a file."""
    return json.dumps(schema, ensure_ascii=False, indent=2) + "\n"


def _file_schema(record: type[Record]) -> Schema:
    root = _record(RecordShape(record))
    root["properties"]["kbgen"] |= {"enum": [FORMAT, str(FORMAT)]}
    inside = sorted(_reachable(RecordShape(record)), key=lambda one: one.type.__name__)
    return {"$schema": DIALECT, **root, "$defs": {one.type.__name__: _record(one) for one in inside}}


def _schema(shape: Shape) -> Schema:
    if isinstance(shape, ScalarShape):
        return scalar_schema(shape)
    if isinstance(shape, ListShape):
        return _list(shape)
    if isinstance(shape, MapShape):
        return {"type": "object", "additionalProperties": _schema(shape.value)}
    if isinstance(shape, RecordShape):
        return _reference(shape)
    return _union(shape)


def _list(shape: ListShape) -> Schema:
    least = max(shape.at_least, 1 if shape.word else 0)
    entries: Schema = {"type": "array", "items": _schema(shape.item)}
    if least:
        entries["minItems"] = least
    return {"anyOf": [{"const": shape.word}, entries]} if shape.word else entries


def _reference(shape: RecordShape) -> Schema:
    return {"$ref": f"#/$defs/{shape.type.__name__}"}


def _record(shape: RecordShape) -> Schema:
    keys = shape.keys.values()
    return {
        "title": shape.type.__name__,
        "description": shape.doc,
        "type": "object",
        "properties": {one.name: _property(one) for one in keys},
        "required": [one.name for one in keys if one.required],
        "additionalProperties": False,
    }


def _property(key: KeyShape) -> Schema:
    return {"description": key.doc, **_schema(key.shape)}


def _union(shape: UnionShape) -> Schema:
    """Choose by the word that starts the record, so that an editor proposes the keys of that kind and no others."""
    starts: list[Schema] = [_has(word) for word, _ in shape.choices]
    kinds = [{"if": _has(word), "then": _reference(record)} for word, record in shape.choices]
    return {"type": "object", "allOf": [*kinds, {"if": {"not": {"anyOf": starts}}, "then": _undecided(shape, starts)}]}


def _has(word: str) -> Schema:
    return {"type": "object", "required": [word]}


def _undecided(shape: UnionShape, starts: list[Schema]) -> Schema:
    """What an editor proposes while the word that starts the record is still missing."""
    first = {"id": shape.choices[0][1].keys["id"].doc}
    first |= {word: f"{record.doc} {record.keys[word].doc}" for word, record in shape.choices}
    properties: dict[str, Any] = {name: {"description": doc} for name, doc in first.items()}
    return {"properties": properties, "anyOf": [{"required": start["required"]} for start in starts]}


def _reachable(start: RecordShape) -> set[RecordShape]:
    found: set[RecordShape] = set()
    todo = [one for key in start.keys.values() for one in _records_in(key.shape)]
    while todo:
        one = todo.pop()
        if one not in found:
            found.add(one)
            todo.extend(inner for key in one.keys.values() for inner in _records_in(key.shape))
    return found


def _records_in(shape: Shape) -> Iterator[RecordShape]:
    if isinstance(shape, RecordShape):
        yield shape
    elif isinstance(shape, ListShape):
        yield from _records_in(shape.item)
    elif isinstance(shape, UnionShape):
        yield from (record for _, record in shape.choices)
