"""What kbgen says of a mutant: the errors that its rules report. The only module here that asks kbgen."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from itertools import count
from pathlib import Path
from typing import Any

from kbgen.check.case import Case
from kbgen.check.catalogue import check_procedure, check_tables
from kbgen.check.speech import Speech
from kbgen.diagnostics import Diagnostic, Severity
from kbgen.language.wanted import Language
from kbgen.model.decode import Decoded, decode
from kbgen.model.procedure import Procedure
from kbgen.model.shared import Shared
from kbgen.model.tables import Tables
from kbgen.place import Span
from kbgen.route.trace import trace
from kbgen.source import tree
from tests.proof.bases import Base, base
from tests.proof.mutants import Mutant
from tests.proof.tables import Data

# An approval is void after any edit, and pictures are not what is judged.
NOT_APPROVED = {"state": "draft", "approvals": "none"}
NO_PICTURE = b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"><path d="M0 0h1"/></svg>'


def errors(mutant: Mutant) -> list[Diagnostic]:
    """The errors in the procedure of a mutant, and in its tables where they were changed."""
    speech = _speech(mutant.base.root) if mutant.table is None else _mutated_speech(mutant)
    found = list(_in_procedure(mutant.file, mutant.procedure, speech))
    if mutant.table is not None:
        found += _in_tables(speech)
    return [one for one in found if one.rule.severity is Severity.ERROR]


def errors_in_clean(base: Base) -> list[Diagnostic]:
    """The errors in a knowledge base as it is."""
    speech = _speech(base.root)
    found = [*_in_tables(speech)]
    for file, procedure in base.procedures.items():
        found += _in_procedure(file, procedure, speech)
    return [one for one in found if one.rule.severity is Severity.ERROR]


def _in_procedure(file: str, procedure: Data, speech: Speech) -> Iterator[Diagnostic]:
    decoded = decode(Procedure, node_of({**procedure, **NOT_APPROVED}, file))
    case = Case(decoded, trace(decoded.record, speech.shared), speech.shared, lambda path: NO_PICTURE)
    yield from decoded.found
    yield from check_procedure(case, speech)


def _in_tables(speech: Speech) -> Iterable[Diagnostic]:
    return [*(one for file in speech.shared.files for one in file.found), *check_tables(speech)]


@cache
def _decoded(root: Path) -> Mapping[str, Decoded[Tables]]:
    return {path: decode(Tables, node_of(data, path)) for path, data in base(root).table_files.items()}


@cache
def _speech(root: Path) -> Speech:
    return Speech(Shared(tuple(_decoded(root).values())), Language())


def _mutated_speech(mutant: Mutant) -> Speech:
    assert mutant.table is not None
    path, data = mutant.table
    files = {**_decoded(mutant.base.root), path: decode(Tables, node_of(data, path))}
    return Speech(Shared(tuple(files.values())), Language())


def node_of(data: Any, path: str) -> tree.Node:
    """Plain data as the tree that its file would be read as; each value gets a line of its own."""
    return _node(data, path, count())


def _node(data: Any, path: str, lines: Iterator[int]) -> tree.Node:
    line = next(lines)
    at = Span(path, line, 0, line, 1)
    if isinstance(data, dict):
        entries = ((tree.Scalar(str(key), at, True), _node(value, path, lines)) for key, value in data.items())
        return tree.Mapping(tuple(entries), at)
    if isinstance(data, list):
        return tree.Sequence(tuple(_node(one, path, lines) for one in data), at)
    return tree.Scalar(_text(data), at, True)


def _text(value: Any) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value.isoformat() if isinstance(value, datetime.date) else str(value)
