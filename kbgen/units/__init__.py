"""Units of measurement: what a unit that an author wrote measures, and how its numbers turn into those of another."""

from __future__ import annotations

from kbgen.units.lookup import alike, unit
from kbgen.units.unit import Unit, convert, same_dimension

__all__ = ["Unit", "alike", "convert", "same_dimension", "unit"]
