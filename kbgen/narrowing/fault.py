"""What narrowing down is given: one fault for each procedure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True)
class Cause:
    """A possible cause of a fault.

    ``cases`` is the number of closed jobs behind the weight, 0 where it was judged. ``shows`` gives the chance of
    symptoms by id; None where the author gives none at all.
    """

    text: str
    weight: float
    cases: int
    shows: Mapping[str, float] | None


@dataclass(frozen=True)
class Symptom:
    """What is seen, heard, smelled or felt, with other words for it."""

    id: str
    text: str
    also: tuple[str, ...] = ()


@dataclass(frozen=True)
class Code:
    """A code on a display that the fault raises, always or sometimes."""

    display: str
    code: str
    always: bool
    text: str
    shown_by: str


@dataclass(frozen=True)
class Look:
    """A step by which a symptom can be looked for at the machine as it stands."""

    symptom: str
    step: str
    number: str
    question: str
    seconds: int | None
    hazards: tuple[str, ...] = ()
    done_by: tuple[str, ...] = ()


@dataclass(frozen=True)
class Fault:
    """The fault of a procedure.

    ``times`` is how often it comes up in a year, None where the procedure does not say. ``not_as_it_stands`` names the
    symptoms that its steps look for only after something was done to the machine, or from inside it. ``state`` is the
    state of the document in words, empty where it is approved; ``hazards`` are its gravest hazards.
    """

    id: str
    title: str
    times: float | None
    times_counted: bool
    causes: tuple[Cause, ...]
    symptoms: tuple[Symptom, ...]
    codes: tuple[Code, ...] = ()
    looks: tuple[Look, ...] = ()
    not_as_it_stands: tuple[str, ...] = ()
    state: str = ""
    hazards: tuple[str, ...] = ()
