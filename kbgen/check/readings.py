"""The readings of a group of steps, and their limits as numbers in the unit of the reading."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from kbgen.model.steps import Group, Read
from kbgen.model.values import Quantity
from kbgen.units import convert, same_dimension, unit


def readings(groups: Iterable[Group]) -> Iterator[Read]:
    """Every reading, in the order of the page."""
    for group in groups:
        yield from (step for step in group.steps if isinstance(step, Read))


def number_in(quantity: Quantity, wanted: str) -> float | None:
    """The number of a quantity in a unit; the quantity has that unit if it has none. None if they do not agree."""
    if not quantity.unit or quantity.unit == wanted:
        return quantity.number
    source, target = unit(quantity.unit), unit(wanted)
    if source is None or target is None or not same_dimension(source, target):
        return None
    return convert(quantity.number, source, target)
