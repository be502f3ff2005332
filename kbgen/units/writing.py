"""How the trade writes units, and the words of the units library for them.

The library alone would misread some of it: for Nm it finds “number of metres”, and it counts a revolution as an
angle of 2π, while the trade's rpm is revolutions per minute, the same as 1/min (rotational frequency in the sense of
ISO 80000-3).
"""

from __future__ import annotations

import re

# Each symbol with the library's word for it, and the prefixes with which it is used at machines.
_PREFIXED = {
    "V": ("volt", "µ u m k"),
    "A": ("ampere", "µ u m k"),
    "Ω": ("ohm", "µ m k M G T"),
    "ohm": ("ohm", "m k M G"),
    "F": ("farad", "p n µ u m"),
    "H": ("henry", "µ u m"),
    "S": ("siemens", "µ u m"),
    "W": ("watt", "m k M"),
    "VA": ("volt_ampere", "k M"),
    "var": ("volt_ampere", "k M"),
    "Ah": ("ampere_hour", "m k"),
    "Wh": ("watt_hour", "k M"),
    "J": ("joule", "m k M"),
    "Hz": ("hertz", "m k M G"),
    "N": ("newton", "m k M"),
    "Nm": ("newton*meter", "m k"),
    "N·m": ("newton*meter", "m k"),
    "Pa": ("pascal", "m h k M"),
    "bar": ("bar", "m"),
    "m": ("meter", "n µ u m c d k"),
    "g": ("gram", "µ u m k"),
    "L": ("liter", "µ m c h"),
    "l": ("liter", "µ m c h"),
    "s": ("second", "n µ u m"),
    "V DC": ("volt", "m k"),
    "V AC": ("volt", "m k"),
    "VDC": ("volt", "m k"),
    "VAC": ("volt", "m k"),
    "A DC": ("ampere", "m"),
    "A AC": ("ampere", "m"),
}

_PREFIX_WORDS = {
    "p": "pico", "n": "nano", "µ": "micro", "u": "micro", "m": "milli", "c": "centi", "d": "deci", "h": "hecto",
    "k": "kilo", "M": "mega", "G": "giga", "T": "tera",
}  # fmt: skip

_SINGLE = {
    "": "dimensionless",
    "1": "dimensionless",
    "%": "percent",
    "% RH": "percent",
    "% LEL": "percent",
    "% vol": "percent",
    "ppm": "ppm",
    "pH": "dimensionless",
    "°": "degree",
    "°C": "degC",
    "°F": "degF",
    "K": "kelvin",
    "dB": "decibel",
    "min": "minute",
    "h": "hour",
    "d": "day",
    "t": "metric_ton",
    "rpm": "1/minute",
    "r/min": "1/minute",
    "1/min": "1/minute",
    "1/s": "1/second",
    "turns": "turn",
    "pulses": "count",
    "pieces": "count",
    "strokes": "count",
    "psi": "psi",
    "mmHg": "mmHg",
    "mmH2O": "mmH2O",
    "inH2O": "inH2O",
    "inHg": "inHg",
    "in": "inch",
    "ft": "foot",
    "lb": "pound",
    "lbf": "force_pound",
    "hp": "horsepower",
    "gpm": "gallon/minute",
    "cfm": "foot**3/minute",
    "cSt": "centistokes",
    "lx": "lux",
    "lm": "lumen",
    "m2": "meter**2",
    "m3": "meter**3",
    "mm/s": "millimeter/second",
    "mm/min": "millimeter/minute",
    "m/s": "meter/second",
    "m/min": "meter/minute",
    "m/s²": "meter/second**2",
    "mm²": "millimeter**2",
    "cm²": "centimeter**2",
    "m²": "meter**2",
    "cm³": "centimeter**3",
    "m³": "meter**3",
    "L/min": "liter/minute",
    "l/min": "liter/minute",
    "L/h": "liter/hour",
    "l/h": "liter/hour",
    "L/s": "liter/second",
    "l/s": "liter/second",
    "m³/h": "meter**3/hour",
    "m3/h": "meter**3/hour",
    "kg/h": "kilogram/hour",
    "kg/m³": "kilogram/meter**3",
    "kg/L": "kilogram/liter",
    "kg/l": "kilogram/liter",
    "g/cm³": "gram/centimeter**3",
    "mg/L": "milligram/liter",
    "mg/l": "milligram/liter",
    "K/min": "kelvin/minute",
    "bar/min": "bar/minute",
    "mbar/min": "millibar/minute",
    "µS/cm": "microsiemens/centimeter",
    "mS/cm": "millisiemens/centimeter",
    "N/mm²": "newton/millimeter**2",
    "mm²/s": "millimeter**2/second",
    "min⁻¹": "1/minute",
    "s⁻¹": "1/second",
}


def _with_prefixes() -> dict[str, str]:
    found = {}
    for symbol, (word, prefixes) in _PREFIXED.items():
        found[symbol] = word
        found.update({prefix + symbol: _PREFIX_WORDS[prefix] + word for prefix in prefixes.split()})
    return found


WORDS = {**_with_prefixes(), **_SINGLE}

# Characters that look alike on a screen mean the same, and so do spaces around operators.
_ALIKE = str.maketrans({"\u2126": "Ω", "\u03bc": "µ", "º": "°", "\u2103": "°C", "⋅": "·", "*": "·"})
_OPERATOR = re.compile(r" ?([/·]) ?")


def plain(text: str) -> str:
    """The one way of writing a unit: without look-alike characters and without spaces around operators."""
    return _OPERATOR.sub(r"\1", " ".join(text.translate(_ALIKE).split()))
