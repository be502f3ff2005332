"""The hash that ties an approval to exactly the content that was approved."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator
from enum import Enum
from typing import Any

from kbgen.model.procedure import Procedure
from kbgen.model.record import Record
from kbgen.model.shape import RecordShape
from kbgen.model.shared import Shared
from kbgen.model.steps import Run

# These say how far the document has come, not what is done at the machine.
_OUTSIDE = frozenset({"kbgen", "state", "review", "approvals"})


def fingerprint(procedure: Procedure, shared: Shared) -> str:
    """Hash what a procedure says, with the shared sequences, hazards and energy sources that it relies on.

    Layout and comments of the files do not count, nor do keys that are left out or say what is the case anyway.
    """
    content = {
        "procedure": _plain(procedure, _OUTSIDE),
        "shared": [_plain(record, frozenset()) for record in _relied_on(procedure, shared)],
    }
    text = json.dumps(content, ensure_ascii=False, separators=(",", ":"), sort_keys=True)
    return "sha256:" + hashlib.sha256(text.encode()).hexdigest()[:32]


def _relied_on(procedure: Procedure, shared: Shared) -> Iterator[Record]:
    runs = (step.run for group in procedure.steps for step in group.steps if isinstance(step, Run))
    yield from _known(shared.sequences, runs)
    yield from _known(shared.hazards, procedure.before.hazards)
    yield from _known(shared.energy, procedure.before.energy)


def _known(table: Any, names: Iterable[str]) -> Iterator[Record]:
    yield from (table[name] for name in sorted({str(name) for name in names}) if name in table)


def _plain(value: Any, without: frozenset[str]) -> Any:
    if isinstance(value, Record):
        fields = ((key, getattr(value, key.attribute)) for key in RecordShape(type(value)).keys.values())
        return {
            key.name: _plain(field, frozenset())
            for key, field in fields
            if key.name not in without and (key.required or field != key.default)
        }
    if isinstance(value, tuple):
        return [_plain(one, frozenset()) for one in value]
    if isinstance(value, dict):
        return {str(name): _plain(one, frozenset()) for name, one in value.items()}
    if isinstance(value, Enum):
        return value.value
    return str(value)
