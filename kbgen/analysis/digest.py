"""What the rest of the knowledge base must know of a procedure: small, plain and quick to store."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from kbgen.model.values import Text
from kbgen.place import Span


@dataclass(frozen=True)
class CodeShown:
    """An alarm code that the procedure is for."""

    display: str
    code: str
    at: Span


@dataclass(frozen=True)
class SymptomSaid:
    """A symptom with the other words for it."""

    text: str
    also: tuple[str, ...]


@dataclass(frozen=True)
class UsedAt:
    """A tool or part and when it is needed: always, or on the named branches."""

    name: str
    always: bool
    branches: tuple[str, ...]


@dataclass(frozen=True)
class Digest:
    """A procedure as seen from the other pages."""

    id: str
    named: Text
    path: str
    title: str
    summary: str
    revision: int
    state: str
    review_last: datetime.date
    review_due: datetime.date
    review_at: Span
    family: str
    equipment: str
    symptoms: tuple[SymptomSaid, ...]
    codes: tuple[CodeShown, ...]
    causes: tuple[str, ...]
    hazards: tuple[str, ...]
    tools: tuple[UsedAt, ...]
    parts: tuple[UsedAt, ...]
    consumables: tuple[str, ...]
    links: tuple[Text, ...]
    anchors: tuple[str, ...]
