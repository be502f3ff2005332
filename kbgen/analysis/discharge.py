"""How long stored electrical energy needs to drain away.

t = R * C * ln(V0 / Vsafe), the discharge of a capacitor through a resistor, times a margin for the tolerances of both.
"""

from __future__ import annotations

import math

from kbgen.model.tables import EnergySource
from kbgen.model.values import Quantity
from kbgen.model.words import EnergyKind

MARGIN = 1.25

_FACTORS = {"Ω": 1.0, "kΩ": 1e3, "MΩ": 1e6, "F": 1.0, "mF": 1e-3, "µF": 1e-6, "nF": 1e-9, "V": 1.0, "kV": 1e3}


def draining_time(source: EnergySource) -> int | None:
    """Return the whole seconds, margin included, after which a source is at its safe voltage.

    None where the source is not stored electrical energy, or where resistance, capacitance or a voltage is not known.
    """
    stored = source.stored
    if source.kind is not EnergyKind.STORED_ELECTRICAL or stored is None:
        return None
    values = [_si(one) for one in (stored.resistance, stored.capacitance, stored.voltage, stored.safe_voltage)]
    resistance, capacitance, voltage, safe = values
    if resistance is None or capacitance is None or voltage is None or safe is None or safe <= 0:
        return None
    if voltage <= safe:
        return 0
    return math.ceil(resistance * capacitance * math.log(voltage / safe) * margin_of(source))


def margin_of(source: EnergySource) -> float:
    """The factor on the computed time: what the source states, or 1.25."""
    return (source.stored.margin if source.stored else None) or MARGIN


def _si(quantity: Quantity | None) -> float | None:
    if quantity is None or quantity.unit not in _FACTORS:
        return None
    return quantity.number * _FACTORS[quantity.unit]
