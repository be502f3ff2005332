"""The shared tables of a knowledge base, in which everything that several procedures use is written once."""

from __future__ import annotations

from dataclasses import dataclass

from kbgen.model.record import NOWHERE, Record, key
from kbgen.model.steps import Group, LimitSource
from kbgen.model.values import (
    ConsumableId,
    ContactId,
    ContactRef,
    DisplayId,
    DisplayRef,
    Duration,
    EndingId,
    EnergyId,
    EnergyRef,
    FamilyId,
    FamilyRef,
    HazardId,
    PartId,
    PartRef,
    PermissionId,
    PointId,
    PointRef,
    PpeId,
    ProcedureRef,
    Prose,
    QualificationId,
    Quantity,
    SequenceId,
    StageId,
    Text,
    ToolId,
    UnitId,
    VariantId,
    VariantRef,
)
from kbgen.model.words import Act, EnergyKind, IsolationProfile, Signal, Standing


@dataclass(frozen=True, kw_only=True)
class Site(Record):
    """What the whole knowledge base has in common."""

    name: Text = key("Name of the site or knowledge base.")
    isolation_order: IsolationProfile = key("The published order of isolation that the site follows.")
    own_order: tuple[Act, ...] = key("The order of the acts, where isolation-order is own.", default=())
    call: ContactRef = key("Whom to call when nothing fits.")
    currency: Text = key("Currency of costs.", default=Text.of("EUR", NOWHERE))
    first_words: Prose = key("What the site wants every technician to read first.")


@dataclass(frozen=True, kw_only=True)
class Variant(Record):
    """A hardware variant of an equipment family."""

    id: VariantId = key("Permanent name of the variant.")
    name: Text = key("Name of the variant.")
    tell: Prose = key("How to tell that this variant is there.")


@dataclass(frozen=True, kw_only=True)
class Family(Record):
    """Equipment that is alike enough to share procedures."""

    id: FamilyId = key("Permanent name of the family.")
    name: Text = key("Name of the family.")
    about: Prose = key("What it does, in a sentence.")
    variants: tuple[Variant, ...] = key("Hardware variants, or none.", word="none")


@dataclass(frozen=True, kw_only=True)
class Module(Record):
    """Which part of a unit a channel in an alarm code means."""

    display: DisplayRef = key("The display that shows the channel.")
    channel: Text = key("The channel, axis or number as the display shows it.")
    serves: Text = key("What it serves.")


@dataclass(frozen=True, kw_only=True)
class Unit(Record):
    """A machine that stands on the site."""

    id: UnitId = key("Permanent name of the unit.")
    tag: Text = key("The mark on the machine.")
    family: FamilyRef = key("Equipment family.")
    variant: VariantRef | None = key("Hardware variant, where it is known.", default=None)
    serial: Text | None = key("Serial number.", default=None)
    software: Text | None = key("Software version.", default=None)
    where: Text = key("Where it stands.")
    modules: tuple[Module, ...] = key("What each channel serves.", default=())


@dataclass(frozen=True, kw_only=True)
class AlarmText(Record):
    """The words a display shows for a code from a software version on."""

    software: Text = key("Software versions, for example up to 2.3.")
    text: Text = key("The words on the display.")


@dataclass(frozen=True, kw_only=True)
class Stage(Record):
    """A stage of an alarm: what is shown, and what the machine still does."""

    id: StageId = key("Permanent name of the stage.")
    name: Text = key("Name of the stage, for example warning.")
    after: Duration | None = key("Time since the fault until the stage begins.", default=None)
    shown: Text = key("How the display shows it.")
    machine: Prose = key("What the machine still does in this stage.")


@dataclass(frozen=True, kw_only=True)
class TellApartAnswer(Record):
    """An answer that decides between procedures with the same code."""

    answer: Text = key("The answer.")
    procedure: ProcedureRef = key("The procedure it leads to.")


@dataclass(frozen=True, kw_only=True)
class TellApart(Record):
    """The question that decides between procedures with the same code."""

    ask: Text = key("The question.")
    answers: tuple[TellApartAnswer, ...] = key("The answers.", at_least=2)


@dataclass(frozen=True, kw_only=True)
class Alarm(Record):
    """A code in the alarm list of a display."""

    code: Text = key("The code without channel or axis.")
    text: Text = key("The words beside it.")
    texts: tuple[AlarmText, ...] = key("The words in other software versions.", default=())
    channel: Text | None = key("How a channel or axis is shown, for example a number after the slash.", default=None)
    which_unit: Prose | None = key("How to tell which of several units raised it.", default=None)
    stages: tuple[Stage, ...] = key("Stages, where a warning turns into an alarm.", default=())
    tell_apart: TellApart | None = key("The question that decides, where several procedures share it.", default=None)


@dataclass(frozen=True, kw_only=True)
class Display(Record):
    """A panel that shows alarm codes."""

    id: DisplayId = key("Permanent name of the display.")
    name: Text = key("Name of the display.")
    where: Text = key("Where it is.")
    alarms: tuple[Alarm, ...] = key("Its alarm list.", at_least=1)


@dataclass(frozen=True, kw_only=True)
class IsolationPoint(Record):
    """The place where an energy source is separated from the machine."""

    id: PointId = key("Permanent name of the isolation point.")
    name: Text = key("Its name, as on its label.")
    device: Text = key("What it is: switch-disconnector, ball valve and so on.")
    where: Text = key("Where it is.")
    lock_with: Text = key("How it is locked.")


@dataclass(frozen=True, kw_only=True)
class StoredEnergy(Record):
    """What is stored, as far as it is known."""

    resistance: Quantity | None = key("Resistance of the discharge path.", default=None)
    capacitance: Quantity | None = key("Capacitance.", default=None)
    voltage: Quantity | None = key("Voltage at the start.", default=None)
    safe_voltage: Quantity | None = key("Voltage that counts as safe.", default=None)
    pressure: Quantity | None = key("Pressure.", default=None)
    volume: Quantity | None = key("Volume.", default=None)
    mass: Quantity | None = key("Mass that can fall.", default=None)
    height: Quantity | None = key("Height it can fall.", default=None)
    temperature: Quantity | None = key("Temperature.", default=None)
    margin: float | None = key(
        "Factor on the computed time of discharge; 1.25 if left out.", default=None, above_zero=True
    )
    source: LimitSource | None = key("Where the figures come from.", default=None)


@dataclass(frozen=True, kw_only=True)
class EnergySource(Record):
    """A source of energy that is controlled by itself."""

    id: EnergyId = key("Permanent name of the energy source.")
    name: Text = key("Name in the trade's words.")
    kind: EnergyKind = key("Kind of energy.")
    magnitude: Text = key("How much: voltage, pressure, mass and height.")
    points: tuple[PointRef, ...] = key(
        "Isolation points; none where it can only be released or waited for.", word="none"
    )
    fed_by: tuple[EnergyRef, ...] = key(
        "Sources that fill it again as soon as they are there, for example the mains of a DC link.", default=()
    )
    stored: StoredEnergy | None = key("Data of stored energy.", default=None)
    prove: Prose = key("Where and how its absence is proved.")


@dataclass(frozen=True, kw_only=True)
class Hazard(Record):
    """A danger, its consequence and how to avoid it."""

    id: HazardId = key("Permanent name of the hazard.")
    signal: Signal = key("Signal word: danger, warning, caution or notice.")
    sign: Text = key("Code of the sign after ISO 7010, for example W012.")
    what: Text = key("The hazard.")
    consequence: Text = key("What can happen.")
    avoid: Prose = key("How to avoid it.")


@dataclass(frozen=True, kw_only=True)
class Tool(Record):
    """A tool."""

    id: ToolId = key("Permanent name of the tool.")
    name: Text = key("Name of the tool, with size or rating.")
    remark: Prose | None = key("What to know about it.", default=None)


@dataclass(frozen=True, kw_only=True)
class Part(Record):
    """A spare part."""

    id: PartId = key("Permanent name of the part.")
    name: Text = key("Name of the part.")
    number: Text = key("Order number.")
    fits: tuple[FamilyRef, ...] = key("Equipment families it fits.", at_least=1)
    variants: tuple[VariantRef, ...] = key("Variants it fits; all if left out.", default=())
    replaced_by: PartRef | None = key("The part that took its place.", default=None)
    printed: Text = key("Where the number is printed.")
    unreadable: Text = key("What to quote if the number cannot be read.")


@dataclass(frozen=True, kw_only=True)
class Consumable(Record):
    """Something that is used up."""

    id: ConsumableId = key("Permanent name of the consumable.")
    name: Text = key("Name.")
    remark: Prose | None = key("What to know about it.", default=None)


@dataclass(frozen=True, kw_only=True)
class Ppe(Record):
    """Personal protective equipment."""

    id: PpeId = key("Permanent name.")
    name: Text = key("Name, with class or rating.")
    sign: Text = key("Code of the mandatory sign after ISO 7010, for example M004.")


@dataclass(frozen=True, kw_only=True)
class Qualification(Record):
    """What a person must be able to do, and be allowed to do."""

    id: QualificationId = key("Permanent name of the qualification.")
    name: Text = key("Name.")
    standing: Standing = key("Electrically skilled or instructed person, trade or operator.")
    meaning: Prose = key("What it means at this site.")


@dataclass(frozen=True, kw_only=True)
class Permission(Record):
    """A permission to get before the work."""

    id: PermissionId = key("Permanent name of the permission.")
    name: Text = key("Name.")
    from_: Text = key("Who gives it.", name="from")


@dataclass(frozen=True, kw_only=True)
class Contact(Record):
    """Whom to call."""

    id: ContactId = key("Permanent name of the contact.")
    name: Text = key("Role or service, not a person.")
    reach: Text = key("How to reach them.")
    hours: Text = key("When.")


@dataclass(frozen=True, kw_only=True)
class Ending(Record):
    """One way in which a shared sequence ends."""

    id: EndingId = key("Permanent name of the outcome.")
    text: Text = key("What it means.")


@dataclass(frozen=True, kw_only=True)
class SharedSequence(Record):
    """Steps that are kept once and run by many procedures."""

    id: SequenceId = key("Permanent name of the sequence.")
    title: Text = key("What it does.")
    takes: tuple[EnergyId, ...] = key("Names that stand for energy sources of the procedure, or none.", word="none")
    outcomes: tuple[Ending, ...] = key("How it can end.", at_least=1)
    steps: tuple[Group, ...] = key("The steps, in groups.", at_least=1)


@dataclass(frozen=True, kw_only=True)
class Term(Record):
    """A word of the trade, defined once."""

    term: Text = key("The word.")
    meaning: Prose = key("What it means here.")
    also: tuple[Text, ...] = key("Other words for it.", default=())


@dataclass(frozen=True, kw_only=True)
class SiteNote(Record):
    """A note or fact that a site adds; it can add, never take away."""

    about: Text = key("procedure:ID, procedure:ID#step, point:ID, energy:ID, tool:ID, part:ID or contact:ID.")
    note: Prose = key("The note.")


@dataclass(frozen=True, kw_only=True)
class Redirect(Record):
    """Where the content of an address that was published before is now."""

    from_: Text = key("The old address: ID or ID#step.", name="from")
    to: Text = key("The new address: ID or ID#step.")


@dataclass(frozen=True, kw_only=True)
class Tables(Record):
    """A file of shared tables; a knowledge base may spread them over as many files as it likes."""

    kbgen: int = key("Version of the file format: 1.")
    site: Site | None = key("What the knowledge base has in common.", default=None)
    families: tuple[Family, ...] = key("Equipment families.", default=())
    units: tuple[Unit, ...] = key("The register of equipment.", default=())
    displays: tuple[Display, ...] = key("Displays and their alarm lists.", default=())
    energy_sources: tuple[EnergySource, ...] = key("Energy sources.", default=())
    isolation_points: tuple[IsolationPoint, ...] = key("Isolation points.", default=())
    hazards: tuple[Hazard, ...] = key("Hazards.", default=())
    tools: tuple[Tool, ...] = key("Tools.", default=())
    parts: tuple[Part, ...] = key("Spare parts.", default=())
    consumables: tuple[Consumable, ...] = key("Consumables.", default=())
    ppe: tuple[Ppe, ...] = key("Personal protective equipment.", default=())
    qualifications: tuple[Qualification, ...] = key("Qualifications.", default=())
    permissions: tuple[Permission, ...] = key("Permissions.", default=())
    contacts: tuple[Contact, ...] = key("Contacts.", default=())
    sequences: tuple[SharedSequence, ...] = key("Shared sequences.", default=())
    synonyms: tuple[tuple[Text, ...], ...] = key("Groups of words that mean the same.", default=())
    glossary: tuple[Term, ...] = key("Words of the site.", default=())
    site_notes: tuple[SiteNote, ...] = key("Notes and facts that the site adds.", default=())
    redirects: tuple[Redirect, ...] = key("Addresses that have moved.", default=())
