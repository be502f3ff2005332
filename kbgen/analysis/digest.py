"""What the rest of the knowledge base must know of a procedure: small, plain and quick to store.

These are named tuples, because all of them are read back in a check of a single file and that takes a quarter less.
"""

from __future__ import annotations

import datetime
from typing import NamedTuple

from kbgen.model.values import Text
from kbgen.place import Span


class CodeShown(NamedTuple):
    """An alarm code that the procedure is for."""

    display: str
    code: str
    at: Span


class SymptomSaid(NamedTuple):
    """A symptom with the other words for it."""

    text: str
    also: tuple[str, ...]


class CauseFigures(NamedTuple):
    """How likely a cause is among those of its fault, and what it shows.

    ``cases`` is the number of closed jobs behind the weight; 0 where it was judged. ``shows`` pairs places in the list
    of symptoms with chances; None where the author gives no chance at all.
    """

    weight: float
    cases: int
    shows: tuple[tuple[int, float], ...] | None


class SymptomLook(NamedTuple):
    """A step by which a symptom is looked for; ``symptom`` is its place in the list."""

    symptom: int
    step: str
    number: str
    question: str
    seconds: int | None
    hazards: tuple[str, ...]
    done_by: tuple[str, ...]


class FaultFigures(NamedTuple):
    """How often the fault comes up, and how it is told from others.

    ``always`` tells for each code whether the fault raises it each time. ``looks`` are those that can be taken as the
    machine stands; ``not_as_it_stands`` are the symptoms for which there are only other ones.
    """

    times: float | None
    times_counted: bool
    always: tuple[bool, ...]
    symptom_ids: tuple[str, ...]
    causes: tuple[CauseFigures, ...]
    looks: tuple[SymptomLook, ...]
    not_as_it_stands: tuple[int, ...]


class UsedAt(NamedTuple):
    """A tool or part and when it is needed: always, or on the named branches."""

    name: str
    always: bool
    branches: tuple[str, ...]


class Digest(NamedTuple):
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
    figures: FaultFigures
    hazards: tuple[str, ...]
    tools: tuple[UsedAt, ...]
    parts: tuple[UsedAt, ...]
    consumables: tuple[str, ...]
    links: tuple[Text, ...]
    anchors: tuple[str, ...]
