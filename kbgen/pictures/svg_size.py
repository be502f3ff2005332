"""The size of a drawing in user units, from its viewBox or else from its width and height."""

import math
import re
from dataclasses import dataclass

from kbgen.pictures.unreadable import UnreadablePicture

_NUMBER = r"[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?"
_LENGTH = re.compile(rf"\s*({_NUMBER})\s*([a-z]*)\s*", re.ASCII)
# CSS Values and Units: one inch is 96 px, 2.54 cm, 72 pt and 6 pc.
_PIXELS = {"": 1.0, "px": 1.0, "in": 96.0, "cm": 96 / 2.54, "mm": 96 / 25.4, "pt": 96 / 72, "pc": 16.0}
_SMALLEST, _LARGEST = 1.0, 100_000.0


@dataclass(frozen=True)
class ViewBox:
    """The part of the plane that a drawing shows."""

    left: float
    top: float
    width: float
    height: float

    @property
    def text(self) -> str:
        """The value of the viewBox attribute."""
        return f"{self.left:.6g} {self.top:.6g} {self.width:.6g} {self.height:.6g}"


def view_box(view: str | None, width: str | None, height: str | None) -> ViewBox:
    """Raise UnreadablePicture if the attributes give no size between 1 and 100,000 units."""
    box = _from_view(view) or _from_lengths(width, height)
    if box is None:
        raise UnreadablePicture("the drawing has neither a usable viewBox nor a width and height; give it a viewBox")
    if not all(_SMALLEST <= side <= _LARGEST for side in (box.width, box.height)):
        raise UnreadablePicture("the drawing's width and height must lie between 1 and 100,000 units")
    return box


def _from_view(view: str | None) -> ViewBox | None:
    words = (view or "").replace(",", " ").split()
    if len(words) != 4 or not all(re.fullmatch(_NUMBER, word, re.ASCII) for word in words):
        return None
    numbers = [_rounded(float(word)) for word in words]
    if not all(math.isfinite(number) for number in numbers) or min(numbers[2:]) <= 0:
        return None
    return ViewBox(*numbers)


def _from_lengths(width: str | None, height: str | None) -> ViewBox | None:
    sides = [_pixels(width), _pixels(height)]
    known = [side for side in sides if side is not None]
    return ViewBox(0.0, 0.0, *known) if len(known) == 2 else None


def _pixels(length: str | None) -> float | None:
    match = _LENGTH.fullmatch(length or "")
    if match is None or match[2] not in _PIXELS:
        return None
    return _rounded(float(match[1]) * _PIXELS[match[2]])


def _rounded(value: float) -> float:
    return float(f"{value:.6g}") + 0.0
