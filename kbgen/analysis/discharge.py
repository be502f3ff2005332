"""How long stored electrical energy needs to drain away.

t = R * C * ln(V0 / Vsafe), the discharge of a capacitor through a resistor, times a margin for the tolerances of both.
"""

from __future__ import annotations

import math

from kbgen.model.tables import EnergySource
from kbgen.model.values import Quantity
from kbgen.model.words import EnergyKind
from kbgen.units import convert, same_dimension, unit

MARGIN = 1.25


def draining_time(source: EnergySource) -> int | None:
    """Return the whole seconds, margin included, after which a source is at its safe voltage.

    None where the source is not stored electrical energy, or where resistance, capacitance or a voltage is not known.
    """
    stored = source.stored
    if source.kind is not EnergyKind.STORED_ELECTRICAL or stored is None:
        return None
    resistance, capacitance = _in(stored.resistance, "Ω"), _in(stored.capacitance, "F")
    voltage, safe = _in(stored.voltage, "V"), _in(stored.safe_voltage, "V")
    if resistance is None or capacitance is None or voltage is None or safe is None or safe <= 0:
        return None
    if voltage <= safe:
        return 0
    return math.ceil(resistance * capacitance * math.log(voltage / safe) * margin_of(source))


def margin_of(source: EnergySource) -> float:
    """The factor on the computed time: what the source states, or 1.25."""
    return (source.stored.margin if source.stored else None) or MARGIN


def _in(quantity: Quantity | None, wanted: str) -> float | None:
    """The number in another unit, or None where nothing is stated or the unit measures something else."""
    written, target = unit(quantity.unit) if quantity else None, unit(wanted)
    if quantity is None or written is None or target is None or not same_dimension(written, target):
        return None
    return convert(quantity.number, written, target)
