"""Where an upright or level line that enters a node's box meets the outline of its shape."""

from __future__ import annotations

from math import sqrt

from kbgen.draw import proportions as p
from kbgen.draw.chart import Shape
from kbgen.draw.drawing import Box


def top_at(shape: Shape, box: Box, x: float) -> float:
    """Height at which a line coming down at `x` meets the outline."""
    if shape is Shape.INPUT:
        return box.y + p.SLANT * (box.right - x) / box.width
    if shape is Shape.MANUAL:
        return box.y
    return box.y + _drop(shape, box, x)


def bottom_at(shape: Shape, box: Box, x: float) -> float:
    """Height at which a line coming up at `x` meets the outline."""
    if shape is Shape.INPUT:
        return box.bottom
    if shape is Shape.MANUAL:
        inward = min(x - box.x, box.right - x)
        return box.bottom - box.height * max(0.0, 1 - inward / p.SLANT)
    return box.bottom - _drop(shape, box, x)


def left_at(shape: Shape, box: Box, y: float) -> float:
    """Where a line coming from the left at `y` meets the outline, for y in the middle third."""
    if shape is Shape.DELAY:
        return box.x
    return box.x + _inset(shape, box, y)


def right_at(shape: Shape, box: Box, y: float) -> float:
    """Where a line coming from the right at `y` meets the outline, for y in the middle third."""
    return box.right - _inset(shape, box, y)


def _drop(shape: Shape, box: Box, x: float) -> float:
    """Distance from the top (or bottom) of the box to the outline, at `x`."""
    half = box.height / 2
    inward = max(0.0, min(x - box.x, box.right - x))
    if shape is Shape.DECISION:
        return half * (1 - inward / (box.width / 2))
    if shape is Shape.TERMINATOR:
        return _arc(min(p.CORNER, half), min(p.CORNER, half), inward)
    if shape is Shape.PREPARATION:
        return half * max(0.0, 1 - inward / p.POINT)
    if shape is Shape.DELAY:
        return _arc(p.BULGE, half, box.right - x)
    return 0.0


def _arc(across: float, down: float, inward: float) -> float:
    """Drop of a quarter ellipse, `inward` pixels from its end."""
    if inward >= across:
        return 0.0
    return down * (1 - sqrt(max(0.0, 1 - (1 - inward / across) ** 2)))


def _inset(shape: Shape, box: Box, y: float) -> float:
    """Distance from the side of the box to the outline, at `y`."""
    half = box.height / 2
    off = abs(y - box.y - half) / half
    if shape is Shape.DECISION:
        return off * box.width / 2
    if shape is Shape.PREPARATION:
        return off * p.POINT
    if shape is Shape.MANUAL:
        return p.SLANT * (y - box.y) / box.height
    if shape is Shape.DELAY:
        return p.BULGE * (1 - sqrt(max(0.0, 1 - off * off)))
    return 0.0
