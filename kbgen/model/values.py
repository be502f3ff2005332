"""The values that fields hold: text that knows its place, names, references, quantities, times and dates."""

from __future__ import annotations

import datetime
import math
import re
from dataclasses import dataclass
from enum import Enum
from typing import Annotated

from kbgen.place import Span

ID_PATTERN = r"^[a-z0-9]+(-[a-z0-9]+)*$"
ID_MAX_LENGTH = 60


class Text(str):
    """A line of words that knows where it stands."""

    __slots__ = ("at",)
    at: Span

    @classmethod
    def of(cls, text: str, at: Span) -> Text:
        """Make a text with its place."""
        made = cls(text)
        made.at = at
        return made

    def __reduce__(self) -> tuple[object, ...]:
        return (type(self).of, (str(self), self.at))


class Prose(Text):
    """Words with a little Markdown in them: emphasis, code, lists and links inside the knowledge base."""

    __slots__ = ()


class Id(Text):
    """A permanent name: small letters, digits and single hyphens."""

    __slots__ = ()


class Ref(Text):
    """The name of something that is defined elsewhere."""

    __slots__ = ()


class PathText(Text):
    """The path of a file, relative to the file that names it; it never leaves the knowledge base."""

    __slots__ = ()


class Kind(Enum):
    """What a name can stand for; the value is the word that findings use."""

    PROCEDURE = "procedure"
    FAMILY = "equipment family"
    VARIANT = "variant"
    UNIT = "unit"
    DISPLAY = "display"
    ENERGY = "energy source"
    POINT = "isolation point"
    HAZARD = "hazard"
    TOOL = "tool"
    PART = "spare part"
    CONSUMABLE = "consumable"
    PPE = "protective equipment"
    QUALIFICATION = "qualification"
    PERMISSION = "permission"
    CONTACT = "contact"
    SEQUENCE = "shared sequence"
    SYMPTOM = "symptom"
    CAUSE = "cause"
    CHANGE = "temporary change"
    PICTURE = "picture"
    SET_UP = "set-up"
    STEP = "step"
    ANSWER = "answer"
    STAGE = "alarm stage"
    ENDING = "outcome of a shared sequence"


ProcedureId = Annotated[Id, Kind.PROCEDURE]
FamilyId = Annotated[Id, Kind.FAMILY]
VariantId = Annotated[Id, Kind.VARIANT]
UnitId = Annotated[Id, Kind.UNIT]
DisplayId = Annotated[Id, Kind.DISPLAY]
EnergyId = Annotated[Id, Kind.ENERGY]
PointId = Annotated[Id, Kind.POINT]
HazardId = Annotated[Id, Kind.HAZARD]
ToolId = Annotated[Id, Kind.TOOL]
PartId = Annotated[Id, Kind.PART]
ConsumableId = Annotated[Id, Kind.CONSUMABLE]
PpeId = Annotated[Id, Kind.PPE]
QualificationId = Annotated[Id, Kind.QUALIFICATION]
PermissionId = Annotated[Id, Kind.PERMISSION]
ContactId = Annotated[Id, Kind.CONTACT]
SequenceId = Annotated[Id, Kind.SEQUENCE]
SymptomId = Annotated[Id, Kind.SYMPTOM]
CauseId = Annotated[Id, Kind.CAUSE]
ChangeId = Annotated[Id, Kind.CHANGE]
PictureId = Annotated[Id, Kind.PICTURE]
SetUpId = Annotated[Id, Kind.SET_UP]
StepId = Annotated[Id, Kind.STEP]
AnswerId = Annotated[Id, Kind.ANSWER]
StageId = Annotated[Id, Kind.STAGE]
EndingId = Annotated[Id, Kind.ENDING]

ProcedureRef = Annotated[Ref, Kind.PROCEDURE]
FamilyRef = Annotated[Ref, Kind.FAMILY]
VariantRef = Annotated[Ref, Kind.VARIANT]
UnitRef = Annotated[Ref, Kind.UNIT]
DisplayRef = Annotated[Ref, Kind.DISPLAY]
EnergyRef = Annotated[Ref, Kind.ENERGY]
PointRef = Annotated[Ref, Kind.POINT]
HazardRef = Annotated[Ref, Kind.HAZARD]
ToolRef = Annotated[Ref, Kind.TOOL]
PartRef = Annotated[Ref, Kind.PART]
ConsumableRef = Annotated[Ref, Kind.CONSUMABLE]
PpeRef = Annotated[Ref, Kind.PPE]
QualificationRef = Annotated[Ref, Kind.QUALIFICATION]
PermissionRef = Annotated[Ref, Kind.PERMISSION]
ContactRef = Annotated[Ref, Kind.CONTACT]
SequenceRef = Annotated[Ref, Kind.SEQUENCE]
SymptomRef = Annotated[Ref, Kind.SYMPTOM]
CauseRef = Annotated[Ref, Kind.CAUSE]
ChangeRef = Annotated[Ref, Kind.CHANGE]
PictureRef = Annotated[Ref, Kind.PICTURE]
SetUpRef = Annotated[Ref, Kind.SET_UP]
StepRef = Annotated[Ref, Kind.STEP]
StageRef = Annotated[Ref, Kind.STAGE]
EndingRef = Annotated[Ref, Kind.ENDING]


@dataclass(frozen=True)
class Quantity:
    """A number with the unit that the author wrote behind it, or none."""

    number: float
    unit: str
    written: str

    def __str__(self) -> str:
        return self.written


@dataclass(frozen=True)
class Duration:
    """A stretch of working time, in seconds."""

    seconds: int
    written: str

    def __str__(self) -> str:
        return self.written


@dataclass(frozen=True)
class Period:
    """An interval of the calendar, in months."""

    months: int
    written: str

    def after(self, day: datetime.date) -> datetime.date:
        """Return the day this interval after another, inside the month and before the calendar ends."""
        month = day.month - 1 + self.months
        year, month = day.year + month // 12, month % 12 + 1
        for last in (day.day, 30, 29, 28):
            try:
                return datetime.date(year, month, last)
            except ValueError:
                continue
        return datetime.date.max

    def __str__(self) -> str:
        return self.written


_QUANTITY = re.compile(r"^([-+−]?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?)\s*(\S.*)?$")
_DURATION_PART = re.compile(r"(\d+(?:\.\d+)?)\s*(s|min|h|d)(?![a-z])")
_PERIOD = re.compile(r"^(\d{1,4})\s*(month|months|year|years)$")
_SECONDS = {"s": 1, "min": 60, "h": 3600, "d": 86400}


def parse_quantity(text: str) -> Quantity:
    """Read ``12.5 V`` or ``12.5``; raise ValueError for anything else."""
    match = _QUANTITY.match(text.strip())
    if match is None:
        raise ValueError("a number, with a unit behind it where one belongs, for example 12.5 V")
    number = float(match[1].replace("−", "-"))
    if not math.isfinite(number):
        raise ValueError("a number of ordinary size")
    return Quantity(number, (match[2] or "").strip(), text.strip())


def parse_duration(text: str) -> Duration:
    """Read ``90 s``, ``5 min``, ``1 h 30 min`` or ``2 d``; raise ValueError for anything else."""
    parts = _DURATION_PART.findall(text)
    if not parts or _DURATION_PART.sub("", text).strip():
        raise ValueError("a time with its unit, for example 90 s, 5 min or 1 h 30 min")
    seconds = sum(float(number) * _SECONDS[unit] for number, unit in parts)
    if not math.isfinite(seconds):
        raise ValueError("a time of ordinary size")
    return Duration(round(seconds), text.strip())


def parse_period(text: str) -> Period:
    """Read ``6 months`` or ``2 years``; raise ValueError for anything else."""
    match = _PERIOD.match(text.strip())
    if match is None or int(match[1]) == 0:
        raise ValueError("an interval in months or years, for example 12 months")
    return Period(int(match[1]) * (12 if match[2].startswith("year") else 1), text.strip())
