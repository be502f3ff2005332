"""The steps of a procedure: one dataclass per kind, and the word that starts it in the file."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from kbgen.model.record import Record, key
from kbgen.model.values import (
    AnswerId,
    CauseRef,
    ChangeRef,
    ConsumableRef,
    ContactRef,
    DisplayRef,
    Duration,
    EndingRef,
    EnergyRef,
    HazardRef,
    PartRef,
    PathText,
    PictureRef,
    PointRef,
    PpeRef,
    ProcedureRef,
    Prose,
    QualificationRef,
    Quantity,
    SequenceRef,
    SetUpRef,
    StageRef,
    StepId,
    StepRef,
    SymptomRef,
    Text,
    ToolRef,
    VariantRef,
)
from kbgen.model.words import EnergyState, Means, Person, Ready, Result, SourceKind

NEXT = "next"


@dataclass(frozen=True, kw_only=True)
class Exit(Record):
    """A way out of a step. ``go`` names the step it leads to, or ``next``."""

    go: StepRef = key("The step that follows, or the word next.")
    at_most: int | None = key("How often this way back may be taken in one job.", default=None, above_zero=True)
    after_that: StepRef | None = key("Where to go when the way back is used up.", default=None)


@dataclass(frozen=True, kw_only=True)
class Answer(Exit):
    """One answer to a question."""

    id: AnswerId = key("Permanent name of the answer, unique in its step.")
    answer: Text = key("The answer in the technician's words, for example Yes, ice on the lower half.")
    confirms: tuple[CauseRef, ...] = key("Causes that this answer shows to be there.", default=())
    rules_out: tuple[CauseRef, ...] = key("Causes that this answer shows not to be there.", default=())
    variant: VariantRef | None = key("The hardware variant that this answer identifies.", default=None)
    symptom: SymptomRef | None = key("The symptom that this answer observes.", default=None)


@dataclass(frozen=True, kw_only=True)
class OtherAnswer(Exit):
    """The answer for a question that cannot be told, or a reading that cannot be taken."""

    answer: Text | None = key("The words on the button, if not the usual ones.", default=None)


@dataclass(frozen=True, kw_only=True)
class Band(Exit):
    """A range of a reading that leads the same way. Two bands may not overlap."""

    id: AnswerId = key("Permanent name of the band, unique in its step.")
    answer: Text = key("What the range means, for example Within the limits.")
    from_: Quantity | None = key("Lowest value of the band, itself included.", default=None, name="from")
    above: Quantity | None = key("The band starts above this value.", default=None)
    to: Quantity | None = key("Highest value of the band, itself included.", default=None)
    below: Quantity | None = key("The band ends below this value.", default=None)
    accepted: bool = key("yes for the band in which the reading is as it should be.", default=False)
    confirms: tuple[CauseRef, ...] = key("Causes that this band shows to be there.", default=())
    rules_out: tuple[CauseRef, ...] = key("Causes that this band shows not to be there.", default=())


@dataclass(frozen=True, kw_only=True)
class LimitSource(Record):
    """Where a limit comes from."""

    kind: SourceKind = key("Standard, handbook, maker's manual, common practice or judgement.")
    reference: Text = key("Document and clause, or whose practice or judgement it is.")


@dataclass(frozen=True, kw_only=True)
class Instrument(Record):
    """The range that the instrument can show, in the unit of the reading."""

    from_: Quantity = key("Lowest value it can show.", name="from")
    to: Quantity = key("Highest value it can show.")


@dataclass(frozen=True, kw_only=True)
class ReadingInput(Record):
    """One of several values from which a derived reading is worked out."""

    id: AnswerId = key("Name of the value, as the formula calls it.")
    text: Text = key("What is measured, for example Voltage between L1 and L2.")
    unit: Text = key("The unit of the value.")
    value: Quantity | None = key("The value itself, where it is known and not measured.", default=None)


@dataclass(frozen=True, kw_only=True)
class TableRow(Record):
    """One row of a table that a formula looks values up in."""

    x: float = key("The value that is looked up.")
    y: float = key("The value that belongs to it.")


@dataclass(frozen=True, kw_only=True)
class Finding(Record):
    """A cause that a check can find, or that a repair removes."""

    cause: CauseRef = key("The cause.")
    certainty: float = key("Chance from 0 to 1 that it works when the cause is there.", at_most=1)


@dataclass(frozen=True, kw_only=True)
class LiveWork(Record):
    """Why a step must be done with energy present, and who alone may do it."""

    reason: Prose = key("Why it cannot be done dead.")
    qualification: QualificationRef = key("Who may do it.")


@dataclass(frozen=True, kw_only=True)
class Clip(Record):
    """A stretch of a video file."""

    file: PathText = key("Path of the video, relative to this file.")
    from_: Duration = key("Where the clip starts.", name="from")
    to: Duration = key("Where the clip ends.")


@dataclass(frozen=True, kw_only=True)
class Window(Record):
    """A stage of an alarm before which the work must be done."""

    display: DisplayRef = key("The display that shows the code.")
    code: Text = key("The alarm code.")
    stage: StageRef = key("The stage that must not be reached before the step is done.")
    repeats: bool = key("yes where a restart lets the time run again, so that the work may be spread.", default=False)


@dataclass(frozen=True, kw_only=True)
class Needs(Record):
    """What every kind of step may say about the work."""

    id: StepId = key("Permanent name of the step; it is part of the page's address.")
    person: Person | None = key("Where the person is, if not as the group says.", default=None)
    energy: dict[EnergyRef, EnergyState] | None = key(
        "What state energy sources must have, where it differs from the group.", default=None
    )
    out_of_reach: dict[EnergyRef, Prose] | None = key(
        "Energy sources that cannot harm the person here whatever their state, each with the reason.", default=None
    )
    done_by: tuple[QualificationRef, ...] = key("Whose work it is; everyone's if left out.", default=())
    takes: Duration | None = key("Working time of the step.", default=None)
    hazards: tuple[HazardRef, ...] = key("Hazards that bite at this step.", default=())
    ppe: tuple[PpeRef, ...] = key("Protective equipment worn at this step.", default=())
    tools: tuple[ToolRef, ...] = key("Tools used at this step.", default=())
    parts: tuple[PartRef, ...] = key("Spare parts used at this step.", default=())
    consumables: tuple[ConsumableRef, ...] = key("Consumables used at this step.", default=())
    picture: PictureRef | None = key("The picture to look at.", default=None)
    callouts: tuple[int, ...] = key("Which numbers of the picture matter here; all if left out.", default=())
    clip: Clip | None = key("A stretch of a video.", default=None)
    note: Prose | None = key("A remark that helps to do it right.", default=None)
    why: Prose | None = key("Why the step is done.", default=None)
    live_work: LiveWork | None = key("Why the step is done live, and by whom.", default=None)
    only: tuple[VariantRef, ...] = key("Variants for which the step is meant; all if left out.", default=())
    before_stage: Window | None = key("The alarm stage before which the step must be done.", default=None)
    set_up: tuple[SetUpRef, ...] = key("What must be set up for it; shared with other checks.", default=())
    cost: float | None = key(
        "Cost of doing it beside the working time, in the knowledge base's currency.", default=None
    )


@dataclass(frozen=True, kw_only=True)
class Onward(Needs):
    """A step that has one way on: the next step unless ``go`` names another."""

    go: StepRef | None = key("The step that follows; the next one if left out.", default=None)
    at_most: int | None = key("How often a way back may be taken in one job.", default=None, above_zero=True)
    after_that: StepRef | None = key("Where to go when the way back is used up.", default=None)


@dataclass(frozen=True, kw_only=True)
class Do(Onward):
    """An instruction: one action."""

    starts_with: ClassVar[str] = "do"
    do: Prose = key("One action, beginning with a verb.")
    removes: tuple[Finding, ...] = key("Causes that the action removes.", default=())


@dataclass(frozen=True, kw_only=True)
class Ask(Needs):
    """A question with answers that lead on."""

    starts_with: ClassVar[str] = "ask"
    ask: Prose = key("A question that can be answered by looking, listening or trying.")
    how_to_tell: Prose | None = key("How to tell the answers apart.", default=None)
    answers: tuple[Answer, ...] = key("The answers; at least two.", at_least=2)
    cannot_tell: OtherAnswer = key("Where to go when it cannot be told.")
    finds: tuple[Finding, ...] = key("Causes that this check finds, and how surely.", default=())


@dataclass(frozen=True, kw_only=True)
class Read(Needs):
    """A reading that is judged against limits and leads on by its band."""

    starts_with: ClassVar[str] = "read"
    read: Prose = key("What to measure, and where.")
    unit: Text = key("The unit of the reading.")
    shows: Instrument = key("The range that the instrument can show.")
    bands: tuple[Band, ...] = key("The ranges and where they lead.", at_least=2)
    not_available: OtherAnswer = key("Where to go when the reading cannot be taken.")
    source: LimitSource = key("Where the limits come from.")
    formula: Text | None = key("Name of the formula of a derived reading.", default=None)
    inputs: tuple[ReadingInput, ...] = key("The values that the formula takes.", default=())
    table: tuple[TableRow, ...] = key("The table that the formula looks values up in, by rising x.", default=())
    finds: tuple[Finding, ...] = key("Causes that this check finds, and how surely.", default=())


@dataclass(frozen=True, kw_only=True)
class Wait(Onward):
    """A wait, which is never a proof of anything."""

    starts_with: ClassVar[str] = "wait"
    wait: Duration = key("How long.")
    for_: Prose = key("What the wait is for.", name="for")
    discharges: EnergyRef | None = key("The stored energy that drains away meanwhile.", default=None)


@dataclass(frozen=True, kw_only=True)
class EnergyStep(Onward):
    """A step that changes the state of an energy source."""

    source: EnergyRef = key("The energy source.")
    point: PointRef | None = key("The isolation point at which it is done.", default=None)


@dataclass(frozen=True, kw_only=True)
class ShutDown(EnergyStep):
    """Stop the machine or part in the ordinary way."""

    starts_with: ClassVar[str] = "shut-down"
    shut_down: Prose = key("How to shut down.")


@dataclass(frozen=True, kw_only=True)
class Isolate(EnergyStep):
    """Separate the energy source at its isolation point."""

    starts_with: ClassVar[str] = "isolate"
    isolate: Prose = key("How to isolate.")


@dataclass(frozen=True, kw_only=True)
class Lock(EnergyStep):
    """Secure the isolation point against being closed."""

    starts_with: ClassVar[str] = "lock"
    lock: Prose = key("How to lock and tag.")


@dataclass(frozen=True, kw_only=True)
class Release(EnergyStep):
    """Let go, block or drain stored energy."""

    starts_with: ClassVar[str] = "release"
    release: Prose = key("How to release or hold back what is stored.")
    empties: bool = key(
        "yes when nothing is left that an isolation would have to hold, as with a load at its lowest place.",
        default=False,
    )


@dataclass(frozen=True, kw_only=True)
class Prove(EnergyStep):
    """Prove that no energy is left, by a test."""

    starts_with: ClassVar[str] = "prove"
    prove: Prose = key("What to test, and where.")
    by: Means = key("The means of proof.")
    below: Quantity | None = key("The reading below which the absence of energy counts as proved.", default=None)
    tester_proved: Text | None = key(
        "before-and-after when the tester is proved on a known source before and after the test.", default=None
    )
    not_proved: StepRef = key("Where to go when energy is still found.")


@dataclass(frozen=True, kw_only=True)
class Unlock(EnergyStep):
    """Take off the lock and tag; done by the person who put it on."""

    starts_with: ClassVar[str] = "unlock"
    unlock: Prose = key("How to take off lock and tag.")


@dataclass(frozen=True, kw_only=True)
class Energise(EnergyStep):
    """Bring energy back."""

    starts_with: ClassVar[str] = "energise"
    energise: Prose = key("How to bring energy back.")
    confirm: tuple[Ready, ...] = key("What must be confirmed first.", at_least=1)


@dataclass(frozen=True, kw_only=True)
class Change(Onward):
    """A temporary change that must be undone."""

    starts_with: ClassVar[str] = "change"
    change: Prose = key("What to change for the time being.")
    opens: ChangeRef = key("The temporary change that is open from here on.")


@dataclass(frozen=True, kw_only=True)
class Undo(Onward):
    """The undoing of a temporary change."""

    starts_with: ClassVar[str] = "undo"
    undo: Prose = key("What to put back.")
    closes: ChangeRef = key("The temporary change that is closed.")


@dataclass(frozen=True, kw_only=True)
class Run(Needs):
    """A shared sequence, done here; each of its outcomes leads on."""

    starts_with: ClassVar[str] = "run"
    run: SequenceRef = key("The shared sequence.")
    with_: dict[Text, EnergyRef] | None = key(
        "Which energy source stands for each one that the sequence takes.", default=None, name="with"
    )
    outcomes: dict[EndingRef, StepRef] = key("Where each outcome of the sequence leads.")


@dataclass(frozen=True, kw_only=True)
class Finish(Needs):
    """An outcome: the end of a path through the procedure."""

    starts_with: ClassVar[str] = "outcome"
    outcome: Prose = key("How the job stands now.")
    result: Result = key("fixed, order-part, escalate or other-procedure.")
    causes: tuple[CauseRef, ...] = key("The causes that are confirmed when the job ends here.", default=())
    orders: tuple[PartRef, ...] = key("The parts to order.", default=())
    contact: ContactRef | None = key("Whom to call.", default=None)
    report: tuple[Prose, ...] = key("What to report.", default=())
    procedure: ProcedureRef | None = key("The procedure to go on with.", default=None)


@dataclass(frozen=True, kw_only=True)
class End(Needs):
    """The end of a shared sequence, with the outcome it comes to."""

    starts_with: ClassVar[str] = "end"
    end: EndingRef = key("The outcome of the sequence.")


STEP_KINDS = (
    Do, Ask, Read, Wait, ShutDown, Isolate, Lock, Release, Prove, Unlock, Energise, Change, Undo, Run, Finish, End,
)  # fmt: skip

Step = (
    Do | Ask | Read | Wait | ShutDown | Isolate | Lock | Release | Prove | Unlock | Energise | Change | Undo | Run
    | Finish | End
)  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Group(Record):
    """A group of steps that share where the person is and what state the energy sources must have."""

    group: Text = key("Heading of the group.")
    person: Person | None = key("Where the person is in these steps.", default=None)
    energy: dict[EnergyRef, EnergyState] | None = key(
        "What state each energy source must have in these steps.", default=None
    )
    out_of_reach: dict[EnergyRef, Prose] | None = key(
        "Energy sources that cannot harm the person here whatever their state, each with the reason.", default=None
    )
    done_by: tuple[QualificationRef, ...] = key("Whose work it is; everyone's if left out.", default=())
    hazards: tuple[HazardRef, ...] = key("Hazards that bite at every step of the group.", default=())
    only: tuple[VariantRef, ...] = key("Variants for which the group is meant; all if left out.", default=())
    before_stage: Window | None = key("The alarm stage before which the group must be done.", default=None)
    steps: tuple[Step, ...] = key("The steps, in the order of the page.", at_least=1)
