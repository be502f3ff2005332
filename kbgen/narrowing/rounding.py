"""Comparison of figures that two languages work out: differences that come from rounding alone must decide nothing."""

from __future__ import annotations

import math

_FINE = 1e9


def steps(figure: float) -> int:
    """A figure in thousand-millionths; figures that come to the same number count as equal."""
    return math.floor(figure * _FINE + 0.5)
