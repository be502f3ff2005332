"""The shared tables of a knowledge base, merged from all their files and looked up by name."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TypeVar

from kbgen.model.decode import Decoded
from kbgen.model.record import Record
from kbgen.model.scopes import Mention
from kbgen.model.tables import (
    Alarm,
    Consumable,
    Contact,
    Display,
    EnergySource,
    Family,
    Hazard,
    IsolationPoint,
    Part,
    Permission,
    Ppe,
    Qualification,
    Redirect,
    SharedSequence,
    Site,
    SiteNote,
    Tables,
    Term,
    Tool,
    Unit,
    Variant,
)
from kbgen.model.values import Kind

T = TypeVar("T", bound=Record)


@dataclass(frozen=True)
class Shared:
    """Everything that is written once for the whole knowledge base."""

    files: tuple[Decoded[Tables], ...]

    @cached_property
    def site(self) -> Site | None:
        """The site block, from the first file that has one."""
        return next((one.record.site for one in self.files if one.record.site), None)

    @cached_property
    def families(self) -> Mapping[str, Family]:
        """Equipment families."""
        return _by_id(one for file in self.files for one in file.record.families)

    @cached_property
    def units(self) -> Mapping[str, Unit]:
        """The register of equipment."""
        return _by_id(one for file in self.files for one in file.record.units)

    @cached_property
    def displays(self) -> Mapping[str, Display]:
        """Displays with their alarm lists."""
        return _by_id(one for file in self.files for one in file.record.displays)

    @cached_property
    def alarms(self) -> Mapping[tuple[str, str], Alarm]:
        """Alarms by display and code."""
        return {(display.id, alarm.code): alarm for display in self.displays.values() for alarm in display.alarms}

    @cached_property
    def energy(self) -> Mapping[str, EnergySource]:
        """Energy sources."""
        return _by_id(one for file in self.files for one in file.record.energy_sources)

    @cached_property
    def points(self) -> Mapping[str, IsolationPoint]:
        """Isolation points."""
        return _by_id(one for file in self.files for one in file.record.isolation_points)

    @cached_property
    def hazards(self) -> Mapping[str, Hazard]:
        """Hazards."""
        return _by_id(one for file in self.files for one in file.record.hazards)

    @cached_property
    def tools(self) -> Mapping[str, Tool]:
        """Tools."""
        return _by_id(one for file in self.files for one in file.record.tools)

    @cached_property
    def parts(self) -> Mapping[str, Part]:
        """Spare parts."""
        return _by_id(one for file in self.files for one in file.record.parts)

    @cached_property
    def consumables(self) -> Mapping[str, Consumable]:
        """Consumables."""
        return _by_id(one for file in self.files for one in file.record.consumables)

    @cached_property
    def ppe(self) -> Mapping[str, Ppe]:
        """Personal protective equipment."""
        return _by_id(one for file in self.files for one in file.record.ppe)

    @cached_property
    def qualifications(self) -> Mapping[str, Qualification]:
        """Qualifications."""
        return _by_id(one for file in self.files for one in file.record.qualifications)

    @cached_property
    def permissions(self) -> Mapping[str, Permission]:
        """Permissions."""
        return _by_id(one for file in self.files for one in file.record.permissions)

    @cached_property
    def contacts(self) -> Mapping[str, Contact]:
        """Contacts."""
        return _by_id(one for file in self.files for one in file.record.contacts)

    @cached_property
    def sequences(self) -> Mapping[str, SharedSequence]:
        """Shared sequences."""
        return _by_id(one for file in self.files for one in file.record.sequences)

    @cached_property
    def synonyms(self) -> tuple[tuple[str, ...], ...]:
        """Groups of words that mean the same."""
        return tuple(tuple(map(str, group)) for file in self.files for group in file.record.synonyms)

    @cached_property
    def glossary(self) -> tuple[Term, ...]:
        """Words of the site, in alphabetical order."""
        terms = (term for file in self.files for term in file.record.glossary)
        return tuple(sorted(terms, key=lambda term: (term.term.lower(), term.term)))

    @cached_property
    def site_notes(self) -> Mapping[str, tuple[SiteNote, ...]]:
        """Notes that the site adds, by what they are about."""
        notes: dict[str, tuple[SiteNote, ...]] = {}
        for file in self.files:
            for note in file.record.site_notes:
                notes[note.about] = (*notes.get(note.about, ()), note)
        return notes

    @cached_property
    def redirects(self) -> tuple[Redirect, ...]:
        """Addresses that have moved."""
        return tuple(one for file in self.files for one in file.record.redirects)

    @cached_property
    def names(self) -> Mapping[Kind, Mapping[str, Mention]]:
        """Every name of the tables that is not local to a record, by kind; the first one where it is given twice."""
        found: dict[Kind, dict[str, Mention]] = {kind: {} for kind in Kind}
        for file in self.files:
            for name in file.names:
                if name.owner == 0:
                    found[name.kind].setdefault(name.text, name)
        return found

    def variants_of(self, family: str) -> Mapping[str, Variant]:
        """The variants of a family; empty where the family is unknown."""
        known = self.families.get(family)
        return _by_id(known.variants) if known else {}


def _by_id(records: Iterable[T]) -> Mapping[str, T]:
    found: dict[str, T] = {}
    for record in records:
        found.setdefault(record.id, record)  # type: ignore[attr-defined]
    return found
