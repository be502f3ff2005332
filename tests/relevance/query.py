"""A query with the entries that answer it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Query:
    """A text to type. Each entry in `right` answers it as well as any other; `all_meant`: all of them are wanted."""

    corpus: str
    kind: str
    text: str
    right: frozenset[str]
    all_meant: bool = False
