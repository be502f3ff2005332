"""What the simulator reports: a danger, where it bites, and the way that leads a person there."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Kind(Enum):
    """The kinds of danger, each named for what goes wrong at the machine."""

    UNPROVED_REACH = "a person within reach of energy that is not proved absent"
    LOCK_ON_CLOSED = "a lock on a point that is not open"
    UNDER_LOAD = "an isolation under load"
    EARLY_PROOF = "a proof before the source is held off in the site's order"
    UNREADY_RESTART = "energy brought back before everything is ready"
    GUARD_OFF_RESTART = "energy brought back while a guard is off"
    UNFIT_PROOF = "absence of energy shown by an unfit test"
    SHORT_WAIT = "a stored charge tested before it can have drained"
    LEFT_HELD = "a machine given back locked or isolated"
    LEFT_CHANGED = "a machine given back with a temporary change open"
    CHANGE_OUT_OF_TURN = "a change undone that is not open, or made twice"
    UNCHECKED_SWAP = "a unit swapped unchecked, or something lost that was not recorded"
    NEED_NOT_MET = "an energy source not in the state that the step needs"
    UNREADABLE = "a reading that leads to no band or to two, or a limit of another dimension"
    STUCK = "a step from which no outcome can be reached"
    ENDLESS = "a loop without a limit"
    NEVER_REACHED = "a step that is never reached"
    NO_WAY_OUT = "a question without an answer for what cannot be told"
    TOO_LATE = "an alarm stage that is over before the step is done"
    BARE_LIVE_WORK = "work on live parts without reason, qualification or hazard"


@dataclass(frozen=True)
class Danger:
    """A danger at a station; ``subject`` is the energy source, change or band that it is about."""

    kind: Kind
    station: str
    subject: str
    text: str
    path: tuple[str, ...] = ()

    @property
    def identity(self) -> tuple[Kind, str, str]:
        """What makes it the same danger in another version of the procedure."""
        return self.kind, self.station, self.subject

    def told(self) -> str:
        """The danger in a line, with the way there."""
        return f"{self.kind.name} at {self.station} ({self.subject}): {self.text}. Way: {' -> '.join(self.path)}"
