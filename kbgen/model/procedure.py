"""A procedure as its author wrote it: one fault, from what is seen to the return to service."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from kbgen.model.record import Record, key
from kbgen.model.steps import Group
from kbgen.model.values import (
    CauseId,
    ChangeId,
    ConsumableRef,
    ContactRef,
    DisplayRef,
    Duration,
    EnergyRef,
    FamilyRef,
    HazardRef,
    PartRef,
    PathText,
    Period,
    PermissionRef,
    PictureId,
    PpeRef,
    ProcedureId,
    ProcedureRef,
    Prose,
    QualificationRef,
    SetUpId,
    StepRef,
    SymptomId,
    SymptomRef,
    Text,
    ToolRef,
    VariantRef,
)
from kbgen.model.words import Basis, ChangeKind, DocumentState, Loss, Mechanism, Raised


@dataclass(frozen=True, kw_only=True)
class Review(Record):
    """When the content was last looked through, and how often that must be done."""

    last: datetime.date = key("Date of the last review, as 2026-09-14.")
    every: Period = key("Review interval, as 12 months.")


@dataclass(frozen=True, kw_only=True)
class Approval(Record):
    """Who released the content; the hash ties the approval to exactly that content."""

    role: Text = key("Role of the person who approved.")
    date: datetime.date = key("Date of the approval.")
    content: Text = key("Hash of the approved content, written by kbgen approve.")


@dataclass(frozen=True, kw_only=True)
class Applies(Record):
    """The equipment that a procedure is valid for."""

    family: FamilyRef = key("Equipment family.")
    variants: tuple[VariantRef, ...] = key("Hardware variants, or all.", word="all")
    serials: tuple[Text, ...] = key("Ranges of serial numbers, or all.", word="all")
    software: tuple[Text, ...] = key("Software versions, or all.", word="all")


@dataclass(frozen=True, kw_only=True)
class Symptom(Record):
    """What a technician sees, hears, smells or feels."""

    id: SymptomId = key("Permanent name of the symptom.")
    text: Text = key("The symptom as a technician would say it.")
    also: tuple[Text, ...] = key("Other words for the same thing.", default=())


@dataclass(frozen=True, kw_only=True)
class AlarmUse(Record):
    """A code that this fault shows."""

    display: DisplayRef = key("The display that shows it.")
    code: Text = key("The code, as the display's alarm list has it.")
    raised: Raised = key("always, or sometimes.", default=Raised.ALWAYS)
    note: Prose | None = key("A remark for this fault.", default=None)


@dataclass(frozen=True, kw_only=True)
class Occurs(Record):
    """How often the fault comes up."""

    times: float = key("How many times a year, over all units.", above_zero=True)
    basis: Basis = key("What the figure rests on.")


@dataclass(frozen=True, kw_only=True)
class Cause(Record):
    """A possible cause of the fault."""

    id: CauseId = key("Permanent name of the cause.")
    text: Text = key("The cause in a few words.")
    weight: float = key("Relative weight among the causes of this fault.", above_zero=True)
    basis: Basis = key("What the weight rests on: records or judgement.")
    cases: int | None = key("Number of closed jobs behind a weight from records.", default=None)
    mechanism: Mechanism | None = key("Failure mechanism group after ISO 14224.", default=None)
    shows: dict[SymptomRef, float] | None = key(
        "Chance from 0 to 1 that the cause shows each symptom.", default=None, at_most=1
    )


@dataclass(frozen=True, kw_only=True)
class PersonNeeded(Record):
    """Who may do the work."""

    qualification: QualificationRef = key("The qualification.")
    trade: Text = key("The trade.")
    count: int = key("How many persons.", default=1, above_zero=True)


@dataclass(frozen=True, kw_only=True)
class ToolNeeded(Record):
    """A tool to bring along, and why this one."""

    tool: ToolRef = key("The tool.")
    why: Prose | None = key("Why this one and not another.", default=None)


@dataclass(frozen=True, kw_only=True)
class ConsumableNeeded(Record):
    """A consumable to bring along."""

    consumable: ConsumableRef = key("The consumable.")
    amount: Text = key("How much.")


@dataclass(frozen=True, kw_only=True)
class PartNeeded(Record):
    """A spare part that the repair may need."""

    part: PartRef = key("The part.")
    amount: int = key("How many.", default=1, above_zero=True)
    why: Prose | None = key("When it is needed.", default=None)


@dataclass(frozen=True, kw_only=True)
class Before(Record):
    """What must be clear before the work starts. What is not needed is written as none."""

    people: tuple[PersonNeeded, ...] = key("Who may do it.", at_least=1)
    permissions: tuple[PermissionRef, ...] = key("Permissions to get, or none.", word="none")
    hazards: tuple[HazardRef, ...] = key("All hazards of the work, or none.", word="none")
    energy: tuple[EnergyRef, ...] = key("Energy sources that the work touches, or none.", word="none")
    ppe: tuple[PpeRef, ...] = key("Personal protective equipment, or none.", word="none")
    tools: tuple[ToolNeeded, ...] = key("Tools, or none.", word="none")
    consumables: tuple[ConsumableNeeded, ...] = key("Consumables, or none.", word="none")
    parts: tuple[PartNeeded, ...] = key("Spare parts, or none.", word="none")


@dataclass(frozen=True, kw_only=True)
class TemporaryChange(Record):
    """Something that is altered for a while: an open item until a step puts it back."""

    id: ChangeId = key("Permanent name of the change.")
    what: Text = key("What is changed.")
    kind: ChangeKind = key("bypass, parameter, jumper, blocked-valve, guard-removed, swapped-unit and so on.")
    protection_lost: Prose = key("What protection is lost meanwhile.")
    authorised_by: Text = key("The role that may authorise it.")
    original: Text = key("The original value or position to go back to.")
    loses: tuple[Loss, ...] | None = key(
        "What it can lose for good: data, reference-position, or none.", default=None, word="none"
    )
    checked_at: StepRef | None = key("The step that shows that the unit put in fits.", default=None)
    recorded_at: StepRef | None = key("The step that saves or writes down what can be lost.", default=None)


@dataclass(frozen=True, kw_only=True)
class Callout(Record):
    """A number on a picture."""

    number: int = key("The number.", above_zero=True)
    x: float = key("Place from the left edge, from 0 to 1.", at_most=1)
    y: float = key("Place from the top edge, from 0 to 1.", at_most=1)
    label: Text = key("What the number points at.")


@dataclass(frozen=True, kw_only=True)
class Picture(Record):
    """A picture with numbered callouts."""

    id: PictureId = key("Permanent name of the picture.")
    file: PathText = key("Path of the picture, relative to this file.")
    alt: Text = key("What the picture shows, for those who cannot see it.")
    callouts: tuple[Callout, ...] = key("The numbers on it, or none.", word="none")


@dataclass(frozen=True, kw_only=True)
class SetUp(Record):
    """Something that several checks need and that is done once for all of them."""

    id: SetUpId = key("Permanent name of the set-up.")
    text: Text = key("What is set up, for example cover of the drive end removed.")
    takes: Duration = key("Time to set up and to take back.")


@dataclass(frozen=True, kw_only=True)
class Closing(Record):
    """The end of the job: what is put back, proved, recorded, and who helps beyond the site."""

    restore: tuple[Prose, ...] = key("What to restore, or none.", word="none")
    functional_test: tuple[Prose, ...] = key("How to show that the fault is gone.", at_least=1)
    record: tuple[Prose, ...] = key("What to record.", at_least=1)
    call: ContactRef = key("Whom to call when it is beyond the site.")
    have_at_hand: tuple[Prose, ...] = key("What to have at hand when calling.", at_least=1)


@dataclass(frozen=True, kw_only=True)
class Procedure(Record):
    """One fault and the way from its symptoms back to service."""

    kbgen: int = key("Version of the file format: 1.")
    id: ProcedureId = key("Permanent name of the procedure; it is the address of its page and never changes.")
    title: Text = key("What is wrong, as a technician would say it.")
    revision: int = key("Number of the revision.", above_zero=True)
    state: DocumentState = key("draft, in-review, approved or withdrawn.")
    review: Review = key("Last review and review interval.")
    approvals: tuple[Approval, ...] = key("Who approved it, or none.", word="none")
    replaced_by: ProcedureRef | None = key("The procedure that takes the place of a withdrawn one.", default=None)
    summary: Prose = key("What happens at the machine, in one or two sentences.")
    applies: Applies = key("The equipment it is valid for.")
    symptoms: tuple[Symptom, ...] = key("Symptoms.", at_least=1)
    alarms: tuple[AlarmUse, ...] = key("Alarm codes that this fault shows, or none.", word="none")
    occurs: Occurs | None = key("How often the fault comes up.", default=None)
    causes: tuple[Cause, ...] = key("Possible causes.", at_least=1)
    before: Before = key("Before you start.")
    temporary_changes: tuple[TemporaryChange, ...] = key("Temporary changes that the steps make, or none.", word="none")
    set_ups: tuple[SetUp, ...] = key("Set-ups that checks share.", default=())
    pictures: tuple[Picture, ...] = key("Pictures, or none.", word="none")
    steps: tuple[Group, ...] = key("The steps, in groups.", at_least=1)
    closing: Closing = key("Closing the job.")
    related: tuple[ProcedureRef, ...] = key("Other procedures worth knowing.", default=())
