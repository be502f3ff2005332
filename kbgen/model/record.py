"""How a record of the format is declared: a frozen dataclass whose fields say what their keys mean."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from typing import Any

from kbgen.place import Span

NOWHERE = Span("", 0, 0, 0, 0)


@dataclass(frozen=True, kw_only=True)
class Record:
    """A group of keys in a file, with its place."""

    at: Span = NOWHERE


@dataclass(frozen=True)
class KeyNotes:
    """What a field says of its key besides its type."""

    doc: str
    name: str | None = None
    word: str | None = None
    at_least: int = 0
    above_zero: bool = False
    at_most: float | None = None


def key(doc: str, *, default: Any = dataclasses.MISSING, **notes: Any) -> Any:
    """Declare a key: its meaning, and how it may be written.

    ``name`` is the word in the file where Python cannot use it; ``word`` may stand in place of a list (``none``,
    ``all``) and means an empty one; ``at_least`` is the least number of entries; a key without ``default`` must
    be written.
    """
    metadata = {"key": KeyNotes(doc, **notes)}
    if isinstance(default, (list, dict)):
        raise TypeError("defaults are immutable")
    return dataclasses.field(default=default, metadata=metadata)
