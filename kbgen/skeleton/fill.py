"""Fill the skeleton of a procedure with names from the shared tables."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from string import Template

from kbgen.model.shared import Shared
from kbgen.source.edit import quoted

_TEMPLATE = Path(__file__).parent / "procedure.yaml.template"


@dataclass(frozen=True)
class Names:
    """Names from the tables that stand in a skeleton until its author puts the right ones there."""

    qualification: str
    hazard: str
    energy: str
    contact: str


def missing_tables(shared: Shared) -> tuple[str, ...]:
    """The tables that a skeleton needs and that are empty, by their key in a file of tables."""
    needed: Mapping[str, Mapping[str, object]] = {
        "families": shared.families,
        "qualifications": shared.qualifications,
        "hazards": shared.hazards,
        "energy-sources": shared.energy,
        "contacts": shared.contacts,
    }
    return tuple(name for name, table in needed.items() if not any(table))


def names_from(shared: Shared) -> Names:
    """The first name of each table; the site's own contact, where there is one. No table may be empty."""
    site = shared.site.call if shared.site else ""
    return Names(
        qualification=_first(shared.qualifications),
        hazard=_first(shared.hazards),
        energy=_first(shared.energy),
        contact=site if site in shared.contacts else _first(shared.contacts),
    )


def skeleton(id: str, title: str, family: str, names: Names, today: datetime.date) -> str:
    """The text of a new procedure; ``today`` becomes the day of its last review."""
    return Template(_TEMPLATE.read_text(encoding="utf-8")).substitute(
        id=_name(id),
        title=quoted(title),
        family=_name(family),
        qualification=_name(names.qualification),
        hazard=_name(names.hazard),
        energy=_name(names.energy),
        contact=_name(names.contact),
        today=today.isoformat(),
    )


def _name(name: str) -> str:
    """A name as YAML; one that another reader would take for a number or a yes is put in quotes."""
    return quoted(name) if name in _TAKEN_OTHERWISE or not any(one.isalpha() for one in name) else name


_TAKEN_OTHERWISE = frozenset({"yes", "no", "on", "off", "true", "false", "null", "y", "n"})


def _first(names: Iterable[str]) -> str:
    return next(name for name in names if name)
