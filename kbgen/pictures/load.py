"""The file of a picture -> what the site shows: a cleaned drawing or a small photo without its metadata."""

from __future__ import annotations

from dataclasses import dataclass

from kbgen.pictures.drawing import clean
from kbgen.pictures.photo import to_webp
from kbgen.pictures.unreadable import UnreadablePicture

_PHOTOS = (".png", ".jpg", ".jpeg", ".webp")


@dataclass(frozen=True)
class Shown:
    """A picture as the site holds it; width and height are in its own units."""

    suffix: str
    data: bytes
    width: float
    height: float


def load(path: str, data: bytes) -> Shown:
    """Make a picture safe and small; raise UnreadablePicture when that is not possible."""
    lower = path.lower()
    if lower.endswith(".svg"):
        drawing = clean(data)
        return Shown(".svg", drawing.svg.encode(), drawing.width, drawing.height)
    if lower.endswith(_PHOTOS):
        photo = to_webp(data)
        return Shown(".webp", photo.data, photo.width, photo.height)
    raise UnreadablePicture("only SVG, PNG, JPEG and WebP pictures are shown")
