"""The words that pages use for the fixed choices of the format."""

from __future__ import annotations

from kbgen.model.steps import (
    Ask,
    Change,
    Do,
    Energise,
    Finish,
    Isolate,
    Lock,
    Prove,
    Read,
    Release,
    Run,
    ShutDown,
    Step,
    Undo,
    Unlock,
    Wait,
)
from kbgen.model.words import (
    Basis,
    ChangeKind,
    DocumentState,
    EnergyKind,
    EnergyState,
    Loss,
    Means,
    Person,
    Raised,
    Ready,
    Result,
    Signal,
    SourceKind,
    Standing,
)
from kbgen.signs.signal_word import SignalWord

DOCUMENT = {
    DocumentState.DRAFT: "Draft: not released for work",
    DocumentState.IN_REVIEW: "In review: not released for work",
    DocumentState.APPROVED: "Approved",
    DocumentState.WITHDRAWN: "Withdrawn: do not use",
}
BASIS = {Basis.RECORDS: "from records", Basis.JUDGEMENT: "by judgement"}
RAISED = {Raised.ALWAYS: "always shown", Raised.SOMETIMES: "sometimes shown"}
SOURCE = {
    SourceKind.STANDARD: "Standard",
    SourceKind.HANDBOOK: "Handbook",
    SourceKind.MAKER: "Maker's manual",
    SourceKind.PRACTICE: "Common practice",
    SourceKind.JUDGEMENT: "Judgement",
}
PERSON = {
    Person.OUTSIDE: "You stand outside",
    Person.ENCLOSURE_OPEN: "Enclosure open, hands out",
    Person.HANDS_IN: "Hands inside",
}
ENERGY_KIND = {
    EnergyKind.ELECTRICAL: "electrical",
    EnergyKind.STORED_ELECTRICAL: "stored electrical",
    EnergyKind.SECOND_SUPPLY: "second electrical supply",
    EnergyKind.PNEUMATIC: "compressed air",
    EnergyKind.HYDRAULIC: "hydraulic",
    EnergyKind.GRAVITY: "gravity",
    EnergyKind.SPRING: "spring",
    EnergyKind.THERMAL: "heat or cold",
    EnergyKind.CHEMICAL: "chemical",
    EnergyKind.KINETIC: "moving mass",
}
MEANS = {
    Means.VOLTAGE_TEST: "Proof by a voltage test",
    Means.GAUGE: "Proof by a gauge",
    Means.THERMOMETER: "Proof by a thermometer",
    Means.TRY_TO_START: "Proof by trying to start",
    Means.LOOK: "Proof by looking",
}
READY = {
    Ready.PEOPLE_CLEAR: "Everyone is clear and has been told",
    Ready.TOOLS_OUT: "All tools and parts are out",
    Ready.COVERS_ON: "Covers and guards are on",
    Ready.DEVICES_REMOVED: "Each lock was taken off by the person who put it on",
}
CHANGE = {
    ChangeKind.BYPASS: "bypass",
    ChangeKind.PARAMETER: "changed parameter",
    ChangeKind.JUMPER: "jumper",
    ChangeKind.BLOCKED_VALVE: "blocked valve",
    ChangeKind.GUARD_REMOVED: "guard removed",
    ChangeKind.SWAPPED_UNIT: "swapped unit",
    ChangeKind.DISCONNECTED_FEEDBACK: "disconnected feedback",
    ChangeKind.LOCK: "lock applied",
    ChangeKind.OTHER: "temporary change",
}
LOSS = {Loss.DATA: "data", Loss.REFERENCE: "reference position"}
RESULT = {
    Result.FIXED: "Fixed",
    Result.ORDER_PART: "Order a part",
    Result.ESCALATE: "Call for help",
    Result.OTHER_PROCEDURE: "Another procedure",
}
STANDING = {
    Standing.SKILLED: "electrically skilled person (EN 50110-1)",
    Standing.INSTRUCTED: "electrically instructed person (EN 50110-1)",
    Standing.TRADE: "trade qualification",
    Standing.OPERATOR: "trained operator",
}
SIGNAL = {
    Signal.DANGER: SignalWord.DANGER,
    Signal.WARNING: SignalWord.WARNING,
    Signal.CAUTION: SignalWord.CAUTION,
    Signal.NOTICE: SignalWord.NOTICE,
}

_STEP = {
    Do: "Do",
    Ask: "Look and decide",
    Read: "Measure",
    Wait: "Wait",
    ShutDown: "Shut down",
    Isolate: "Isolate",
    Lock: "Lock and tag",
    Release: "Release stored energy",
    Prove: "Prove by test",
    Unlock: "Take the lock off",
    Energise: "Bring energy back",
    Change: "Temporary change",
    Undo: "Put back",
    Run: "Shared sequence",
}

_ELECTRICAL = {EnergyKind.ELECTRICAL, EnergyKind.STORED_ELECTRICAL, EnergyKind.SECOND_SUPPLY}

_PRESENT = {
    EnergyKind.PNEUMATIC: "under pressure",
    EnergyKind.HYDRAULIC: "under pressure",
    EnergyKind.GRAVITY: "free to fall",
    EnergyKind.SPRING: "under tension",
    EnergyKind.THERMAL: "hot or cold",
    EnergyKind.CHEMICAL: "present",
    EnergyKind.KINETIC: "free to move",
}

_STATE = {
    EnergyState.SHUT_DOWN: "shut down, still connected",
    EnergyState.ISOLATED: "isolated, not secured",
    EnergyState.LOCKED: "locked off, not yet proved",
    EnergyState.RELEASED: "released, not yet proved",
}

_BECOMES: dict[type[Step], str] = {
    ShutDown: "is shut down, but still connected",
    Isolate: "is isolated",
    Lock: "is locked off",
    Release: "is released",
    Unlock: "is no longer secured",
}


def step_kind(step: Step) -> str:
    """What kind of step it is, in a word or two."""
    return RESULT[step.result] if isinstance(step, Finish) else _STEP[type(step)]


def energy_state(state: EnergyState, kind: EnergyKind) -> str:
    """How far an energy source is under control."""
    if state is EnergyState.VERIFIED:
        return "proved dead" if kind in _ELECTRICAL else "proved safe"
    return present(kind) if state is EnergyState.LIVE else _STATE[state]


def is_electrical(kind: EnergyKind) -> bool:
    """Tell whether a source is one of those that can shock."""
    return kind in _ELECTRICAL


def present(kind: EnergyKind) -> str:
    """How it is said that an energy source is there in full."""
    return _PRESENT.get(kind, "live")


def becomes(step: Step, kind: EnergyKind) -> str:
    """What an energy step makes of its source."""
    if isinstance(step, Prove):
        return "is proved dead" if kind in _ELECTRICAL else "is proved safe"
    if isinstance(step, Energise):
        return f"is {present(kind).upper()} again"
    return _BECOMES[type(step)]


def counted(number: int, one: str, many: str) -> str:
    """A number with its noun."""
    return f"{number} {one if number == 1 else many}"


def sentence_case(words: str) -> str:
    """Words as they stand at the head of a line."""
    return words[:1].upper() + words[1:]
