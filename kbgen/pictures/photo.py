"""A photo from a camera or telephone -> a small WebP that says nothing about where and with what it was taken."""

import io
from dataclasses import dataclass

from PIL import Image, ImageOps

from kbgen.pictures.unreadable import UnreadablePicture

LONGEST_SIDE = 1200
QUALITY = 78
MAX_BYTES = 40_000_000
MAX_PIXELS = 64_000_000
_FORMATS = ("JPEG", "PNG", "WEBP")
_GROUND = (255, 255, 255)


@dataclass(frozen=True)
class Photo:
    """A WebP file and its size in pixels."""

    data: bytes
    width: int
    height: int


def to_webp(data: bytes) -> Photo:
    """Turn the photo upright, shrink it to 1,200 px, put transparent parts on white, keep no metadata.

    The colour profile goes with the rest of the metadata; the colours are read as sRGB. Of an animation the first frame
    is kept. The same bytes give the same result with the same Pillow. Raises UnreadablePicture if the bytes are no
    JPEG, PNG or WebP, are damaged, or would unpack to more than 64 million pixels.
    """
    if len(data) > MAX_BYTES:
        raise UnreadablePicture(f"the photo is larger than {MAX_BYTES // 1_000_000} MB")
    try:
        image = _upright(data)
    except UnreadablePicture:
        raise
    except Exception as fault:  # a decoder may fail in any way on bytes that were made to break it
        raise UnreadablePicture("the photo cannot be read: it is no JPEG, PNG or WebP, or it is damaged") from fault
    return _encoded(image)


def _upright(data: bytes) -> Image.Image:
    with Image.open(io.BytesIO(data), formats=_FORMATS) as opened:
        if opened.width * opened.height > MAX_PIXELS:
            raise UnreadablePicture(f"the photo has more than {MAX_PIXELS // 1_000_000} million pixels; shrink it")
        opened.draft("RGB", (2 * LONGEST_SIDE, 2 * LONGEST_SIDE))
        turned = ImageOps.exif_transpose(opened)
        plain = _on_white(turned)
        plain.thumbnail((LONGEST_SIDE, LONGEST_SIDE), Image.Resampling.LANCZOS)
        return plain


def _on_white(image: Image.Image) -> Image.Image:
    """Return a new RGB image: new, because an image that Pillow opened carries its metadata along."""
    plain = Image.new("RGB", image.size, _GROUND)
    if image.mode.startswith("I"):
        image = image.convert("I").point(lambda level: level / 256).convert("L")
    if image.has_transparency_data:
        clear = image.convert("RGBA")
        plain.paste(clear, mask=clear.getchannel("A"))
    else:
        plain.paste(image.convert("RGB"))
    return plain


def _encoded(image: Image.Image) -> Photo:
    buffer = io.BytesIO()
    image.save(buffer, "WEBP", quality=QUALITY, method=4)
    return Photo(buffer.getvalue(), image.width, image.height)
