"""The data of stored energy in words."""

from __future__ import annotations

from kbgen.model.tables import StoredEnergy
from kbgen.pages.wording import SOURCE

_FIELDS = (
    ("voltage", "voltage"),
    ("capacitance", "capacitance"),
    ("resistance", "discharge path"),
    ("safe_voltage", "counts as safe"),
    ("pressure", "pressure"),
    ("volume", "volume"),
    ("mass", "mass"),
    ("height", "height"),
    ("temperature", "temperature"),
)


def stored_words(stored: StoredEnergy) -> str:
    """What is known of the stored energy, in one line."""
    known = [f"{words} {value}" for field, words in _FIELDS if (value := getattr(stored, field))]
    source = f" ({SOURCE[stored.source.kind]}: {stored.source.reference})" if stored.source else ""
    return ", ".join(known) + source
