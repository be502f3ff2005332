"""A unit as data, and the conversion between units of one dimension."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Context, Decimal

# More digits than a float holds, so that only the last step, the way back to a float, rounds.
_EXACT = Context(prec=40)


@dataclass(frozen=True)
class Unit:
    """A unit: a number of it times ``factor`` plus ``offset`` is the number of the root units of its ``dimension``.

    ``dimension`` names the root units with their exponents, for example ``meter second^-1``. Angles, counts and
    logarithmic scales are dimensions of their own; shares such as % and ppm belong with plain numbers, whose
    dimension is empty.
    """

    symbol: str
    dimension: str
    factor: Decimal
    offset: Decimal


def same_dimension(one: Unit, other: Unit) -> bool:
    """Tell whether numbers of one unit can be turned into numbers of the other."""
    return one.dimension == other.dimension


def convert(number: float, source: Unit, target: Unit) -> float:
    """Turn a number of one unit into the number of another; raise ValueError if their dimensions differ.

    The number is taken as the decimal that it was written as, and the result is the float next to the exact value.
    So limits that are equal on paper, as 0.1 V and 100 mV, are equal here too, and no comparison needs a tolerance.
    """
    if not same_dimension(source, target):
        raise ValueError(f"{source.symbol or 'a plain number'} cannot be turned into {target.symbol}")
    if (source.factor, source.offset) == (target.factor, target.offset):
        return number
    root = _EXACT.fma(Decimal(repr(number)), source.factor, source.offset)
    return float(_EXACT.divide(_EXACT.subtract(root, target.offset), target.factor))
