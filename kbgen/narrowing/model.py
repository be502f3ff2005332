"""What is calculated with: faults with their causes, and what can be observed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from kbgen.narrowing.assumed import (
    CODE_NOT_NAMED,
    NOT_NAMED,
    SECONDS_TO_LOOK,
    SECONDS_TO_READ_A_DISPLAY,
    SECONDS_TO_RECALL,
    TIMES_IF_NONE,
)
from kbgen.narrowing.fault import Fault, Look

CODE, SYMPTOM = "code", "symptom"


@dataclass(frozen=True)
class Chances:
    """How likely an observation is with each cause of one fault; ``given`` tells whether the author gave figures."""

    fault: int
    given: bool
    by_cause: tuple[float, ...]


@dataclass(frozen=True)
class FoundBy:
    """A look, and the fault in whose procedure it stands."""

    fault: int
    look: Look


@dataclass(frozen=True)
class Observation:
    """Something that is there or not.

    ``name`` stays the same from build to build. ``display`` is empty for a symptom. ``by_looking`` is the quickest look
    for it; ``may_be_asked`` tells whether it may be proposed at all.
    """

    name: str
    kind: str
    text: str
    also: tuple[str, ...]
    display: str
    chances: tuple[Chances, ...]
    by_looking: FoundBy | None
    may_be_asked: bool

    @property
    def otherwise(self) -> float:
        """How likely it is with a fault whose procedure does not name it."""
        return CODE_NOT_NAMED if self.kind == CODE else NOT_NAMED

    @property
    def seconds(self) -> int:
        """How long it takes to answer."""
        if self.kind == CODE:
            return SECONDS_TO_READ_A_DISPLAY
        if self.by_looking is None:
            return SECONDS_TO_RECALL
        written = self.by_looking.look.seconds
        return SECONDS_TO_LOOK if written is None else max(written, SECONDS_TO_RECALL)


@dataclass(frozen=True)
class Model:
    """Faults among which one is sought, and what tells them apart."""

    faults: tuple[Fault, ...]
    observations: tuple[Observation, ...]

    @cached_property
    def times(self) -> tuple[float, ...]:
        """How often each fault comes up; those that do not say count as the median of those that do."""
        usual = _median([one.times for one in self.faults if one.times is not None])
        return tuple(usual if one.times is None else one.times for one in self.faults)

    @cached_property
    def prior(self) -> tuple[tuple[float, ...], ...]:
        """The chance of each cause of each fault before anything is known."""
        whole = sum(self.times)
        return tuple(
            _shares([cause.weight for cause in fault.causes], times / whole)
            for fault, times in zip(self.faults, self.times, strict=True)
        )


def _shares(weights: Sequence[float], whole: float) -> tuple[float, ...]:
    total = sum(weights)
    return tuple(whole * (weight / total) for weight in weights)


def _median(values: Sequence[float]) -> float:
    if not values:
        return TIMES_IF_NONE
    ordered = sorted(values)
    middle = len(ordered) // 2
    return ordered[middle] if len(ordered) % 2 else (ordered[middle - 1] + ordered[middle]) / 2
