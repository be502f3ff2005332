"""Quantities and times as the simulator reads them; dimensions are judged by pint."""

from __future__ import annotations

import re
from functools import cache
from typing import Any

import pint

_REGISTRY: pint.UnitRegistry[float] = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
_QUANTITY = re.compile(r"^([-+−]?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?)\s*(.*)$")
_TIME = re.compile(r"(\d+(?:\.\d+)?)\s*(s|min|h|d)(?![a-z])")
_SECONDS = {"s": 1.0, "min": 60.0, "h": 3600.0, "d": 86400.0}


class OtherDimensionError(ValueError):
    """A unit that cannot be converted into the one that is wanted."""


def split(value: Any) -> tuple[float, str]:
    """Split ``12.5 V`` into its number and its unit, which is empty where none is written."""
    match = _QUANTITY.match(str(value).strip())
    if match is None:
        raise ValueError(value)
    return float(match[1].replace("−", "-")), match[2].strip()


def seconds(text: Any) -> float:
    """Read ``1 h 30 min`` as seconds."""
    return sum(float(number) * _SECONDS[unit] for number, unit in _TIME.findall(str(text)))


@cache
def convert(number: float, unit: str, wanted: str) -> float:
    """Convert a number from one unit into another; raise OtherDimensionError where that cannot be."""
    if unit == wanted:
        return number
    try:
        return float(_REGISTRY.Quantity(number, _unit(unit)).to(_unit(wanted)).magnitude)
    except (pint.PintError, ValueError) as error:
        raise OtherDimensionError(f"{unit} is not {wanted}") from error


def value_in(value: Any, wanted: str) -> float:
    """The number of a quantity in a unit; a bare number is taken to be in that unit already."""
    number, unit = split(value)
    return convert(number, unit or wanted, wanted)


@cache
def _unit(text: str) -> pint.Unit:
    return _REGISTRY.parse_units(text.replace("·", "*").replace("%", "percent"))
