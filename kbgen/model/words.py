"""The fixed words of the format: every choice an author has, with its meaning beside it."""

from __future__ import annotations

from enum import Enum


class DocumentState(Enum):
    """How far a procedure has come on its way to the shop floor."""

    DRAFT = "draft"
    IN_REVIEW = "in-review"
    APPROVED = "approved"
    WITHDRAWN = "withdrawn"


class Basis(Enum):
    """What a weight or a likelihood rests on."""

    RECORDS = "records"
    JUDGEMENT = "judgement"


class Raised(Enum):
    """Whether a fault shows a code each time or only now and then."""

    ALWAYS = "always"
    SOMETIMES = "sometimes"


class SourceKind(Enum):
    """Where a limit comes from."""

    STANDARD = "standard"
    HANDBOOK = "handbook"
    MAKER = "makers-manual"
    PRACTICE = "common-practice"
    JUDGEMENT = "judgement"


class Person(Enum):
    """Where the person is while doing a step."""

    OUTSIDE = "outside"
    ENCLOSURE_OPEN = "enclosure-open"
    HANDS_IN = "hands-in"


class EnergyKind(Enum):
    """What can hurt: the kinds of energy that are controlled one by one."""

    ELECTRICAL = "electrical"
    STORED_ELECTRICAL = "stored-electrical"
    SECOND_SUPPLY = "second-supply"
    PNEUMATIC = "pneumatic"
    HYDRAULIC = "hydraulic"
    GRAVITY = "gravity"
    SPRING = "spring"
    THERMAL = "thermal"
    CHEMICAL = "chemical"
    KINETIC = "kinetic"


class EnergyState(Enum):
    """How far an energy source is under control, or that a step does not depend on it."""

    LIVE = "live"
    SHUT_DOWN = "shut-down"
    ISOLATED = "isolated"
    LOCKED = "locked"
    RELEASED = "released"
    VERIFIED = "verified"
    ANY = "any"


class Means(Enum):
    """How the absence of energy is proved."""

    VOLTAGE_TEST = "voltage-test"
    GAUGE = "gauge"
    THERMOMETER = "thermometer"
    TRY_TO_START = "try-to-start"
    LOOK = "look"


class Ready(Enum):
    """What must be confirmed before energy comes back."""

    PEOPLE_CLEAR = "people-clear"
    TOOLS_OUT = "tools-out"
    COVERS_ON = "covers-on"
    DEVICES_REMOVED = "devices-removed-by-owner"


class ChangeKind(Enum):
    """What is altered for a while and must be put back."""

    BYPASS = "bypass"
    PARAMETER = "parameter"
    JUMPER = "jumper"
    BLOCKED_VALVE = "blocked-valve"
    GUARD_REMOVED = "guard-removed"
    SWAPPED_UNIT = "swapped-unit"
    DISCONNECTED_FEEDBACK = "disconnected-feedback"
    LOCK = "lock"
    OTHER = "other"


class Result(Enum):
    """How a procedure can end."""

    FIXED = "fixed"
    ORDER_PART = "order-part"
    ESCALATE = "escalate"
    OTHER_PROCEDURE = "other-procedure"


class Signal(Enum):
    """Signal words in the sense of ANSI Z535.6 and ISO 3864-2."""

    DANGER = "danger"
    WARNING = "warning"
    CAUTION = "caution"
    NOTICE = "notice"


class Standing(Enum):
    """What a person must be, in the sense of EN 50110-1, or what other training a task asks for."""

    SKILLED = "electrically-skilled"
    INSTRUCTED = "electrically-instructed"
    TRADE = "trade-qualified"
    OPERATOR = "trained-operator"


class IsolationProfile(Enum):
    """Which published order of isolation a knowledge base follows."""

    OSHA = "osha-1910-147"
    NFPA = "nfpa-70e-120-5"
    EN = "en-50110-1"
    OWN = "own"


class Act(Enum):
    """What is done to bring an energy source under control, one act after the other."""

    SHUT_DOWN = "shut-down"
    ISOLATE = "isolate"
    LOCK = "lock"
    RELEASE = "release"
    PROVE = "prove"


class Loss(Enum):
    """What a temporary change can lose for good."""

    DATA = "data"
    REFERENCE = "reference-position"


class Mechanism(Enum):
    """Failure mechanism groups after ISO 14224 table B.2 (words of our own)."""

    MECHANICAL = "mechanical"
    MATERIAL = "material"
    INSTRUMENT = "instrument"
    ELECTRICAL = "electrical"
    EXTERNAL = "external"
    OTHER = "other"
