"""What a unit means, from the units library; imported only for units that the table of known ones lacks.

Measured on one core: importing the library takes 0.15 s and reading its definitions 0.13 s, against 0.3 s for a whole
``kbgen check`` of 16 procedures. The table of known units takes 0.2 ms, so a cache of the library's definitions
(0.02 s instead of 0.13 s) would serve rare units only.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Context, Decimal, localcontext
from functools import cache

import pint

from kbgen.units.unit import Unit
from kbgen.units.writing import WORDS

# The library would take any text it can make a sum of; a unit is a product of names with small exponents.
_NAME = r"(?:[^\W\d_]|[°%])+"
_POWER = r"(?:\^?-?[1-9]|⁻?[¹²³⁴])?"
_PRODUCT = rf"{_NAME}{_POWER}(?:·{_NAME}{_POWER})*"
_TEXT = re.compile(rf"(?:1|{_PRODUCT})(?:/(?:{_PRODUCT}|\({_PRODUCT}\)))*")
_FACTOR = re.compile(rf"({_NAME})({_POWER})")
_SUPERSCRIPTS = str.maketrans("⁻¹²³⁴", "-1234")
_MAX_LENGTH = 40

# Worked out with more digits than are kept, so that those that are kept are right.
_WORK, _ROUND = Context(prec=50), Context(prec=40)

# The units that take prefixes: those of the SI and those used with it (after the SI Brochure, 9th edition), and
# the measures of electrical work and heat. Otherwise a slip such as “cfm” is read as “centifermi”.
_TAKE_PREFIXES = {
    "meter", "gram", "second", "ampere", "kelvin", "mole", "candela", "radian", "hertz", "newton", "pascal", "joule",
    "watt", "coulomb", "volt", "farad", "ohm", "siemens", "weber", "tesla", "henry", "lumen", "lux", "becquerel",
    "gray", "sievert", "katal", "liter", "metric_ton", "bar", "electron_volt", "volt_ampere", "ampere_hour",
    "watt_hour", "calorie", "poise", "stokes", "count", "bit", "byte",
}  # fmt: skip


def meaning(text: str) -> Unit | None:
    """Return what a unit in plain writing measures, or None if it is no unit."""
    if text in WORDS:
        return _unit(text, WORDS[text])
    if len(text) > _MAX_LENGTH or not _TEXT.fullmatch(text):
        return None
    if not all(_is_name(name) for name, _ in _FACTOR.findall(text)):
        return None
    return _unit(text, _FACTOR.sub(_in_words, text).replace("·", "*"))


def _in_words(factor: re.Match[str]) -> str:
    power = factor[2].lstrip("^").translate(_SUPERSCRIPTS)
    word = f"({WORDS.get(factor[1], factor[1])})"
    return f"{word}**({power})" if power else word


def _is_name(name: str) -> bool:
    """Tell whether a name is a unit and not a constant of physics, for which the library has single letters."""
    if name in WORDS:
        return True
    readings = _registry().parse_unit_name(name)
    return len(name) > 1 and any(not prefix or word in _TAKE_PREFIXES for prefix, word, _ in readings)


def _unit(symbol: str, words: str) -> Unit | None:
    registry = _registry()
    try:
        parsed = registry.parse_units(words)
    except (pint.PintError, ValueError):
        return None
    with localcontext(_WORK):
        try:
            none, one = (registry.Quantity(Decimal(number), parsed).to_root_units() for number in (0, 1))
        except TypeError:
            # A logarithmic scale has no factor; its numbers are compared with each other only.
            return Unit(symbol, str(parsed), Decimal(1), Decimal(0))
        offset, factor = none.magnitude, one.magnitude - none.magnitude
    return Unit(symbol, _dimension(one.unit_items()), _rounded(factor), _rounded(offset))


def _dimension(root_units: Iterable[tuple[str, object]]) -> str:
    powers = sorted((name, f"{Decimal(str(power)):f}") for name, power in root_units)
    return " ".join(name if power == "1" else f"{name}^{power}" for name, power in powers)


def _rounded(number: Decimal) -> Decimal:
    return _ROUND.normalize(_ROUND.plus(number))


@cache
def _registry() -> pint.UnitRegistry[Decimal]:
    with localcontext(_WORK):
        return pint.UnitRegistry(non_int_type=Decimal)
