import io
import zlib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from kbgen.pictures.photo import LONGEST_SIDE, Photo, to_webp
from kbgen.pictures.unreadable import UnreadablePicture

ORIENTATION, MAKER, GPS, LATITUDE = 0x0112, 0x010F, 0x8825, 2
RED, BLUE = (220, 20, 20), (20, 20, 220)


def red_above_blue(width: int, height: int) -> Image.Image:
    image = Image.new("RGB", (width, height), BLUE)
    image.paste(RED, (0, 0, width, height // 2))
    return image


def saved(image: Image.Image, kind: str, **options: object) -> bytes:
    buffer = io.BytesIO()
    image.save(buffer, kind, **options)
    return buffer.getvalue()


def opened(photo: Photo) -> Image.Image:
    image = Image.open(io.BytesIO(photo.data))
    assert image.format == "WEBP"
    assert image.size == (photo.width, photo.height)
    return image


def is_near(found: object, wanted: tuple[int, int, int]) -> bool:
    assert isinstance(found, tuple)
    return all(abs(a - b) < 30 for a, b in zip(found, wanted, strict=True))


def exif(orientation: int) -> Image.Exif:
    tags = Image.Exif()
    tags[ORIENTATION] = orientation
    tags[MAKER] = "Secret camera"
    tags.get_ifd(GPS)[LATITUDE] = (51.0, 5.0, 1.0)
    return tags


# Where the red half lies after turning: the EXIF standard (CIPA DC-008), tag 0x0112, row 0 and column 0 of the image.
@pytest.mark.parametrize(
    ("orientation", "size", "red_at"),
    [(1, (60, 40), "top"), (3, (60, 40), "bottom"), (6, (40, 60), "right"), (8, (40, 60), "left")],
)
def test_a_photo_is_turned_upright(orientation: int, size: tuple[int, int], red_at: str) -> None:
    photo = to_webp(saved(red_above_blue(60, 40), "JPEG", exif=exif(orientation), quality=95))
    assert (photo.width, photo.height) == size
    middle, far = (size[0] // 2, size[1] // 2), (size[0] - 4, size[1] - 4)
    places = {
        "top": (middle[0], 4),
        "bottom": (middle[0], far[1]),
        "left": (4, middle[1]),
        "right": (far[0], middle[1]),
    }
    assert is_near(opened(photo).getpixel(places[red_at]), RED)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_no_metadata_is_left(kind: str) -> None:
    original = saved(red_above_blue(60, 40), kind, exif=exif(6), xmp=b"<x:xmpmeta>Secret place</x:xmpmeta>")
    assert b"Secret" in original
    image = opened(to_webp(original))
    assert dict(image.getexif()) == {}
    assert not {"exif", "xmp", "icc_profile"} & image.info.keys()
    assert b"Secret" not in to_webp(original).data


def test_a_colour_profile_and_comments_go_too() -> None:
    original = saved(red_above_blue(60, 40), "JPEG", icc_profile=b"Secret profile", comment=b"Secret comment")
    assert b"Secret" not in to_webp(original).data


@pytest.mark.parametrize(
    ("size", "wanted"),
    [((2400, 1800), (1200, 900)), ((1000, 4000), (300, 1200)), ((80, 50), (80, 50)), ((5000, 1), (1200, 1))],
)
def test_only_large_photos_are_shrunk(size: tuple[int, int], wanted: tuple[int, int]) -> None:
    photo = to_webp(saved(red_above_blue(*size), "JPEG"))
    assert (photo.width, photo.height) == wanted


def test_transparent_parts_become_white() -> None:
    image = Image.new("RGBA", (40, 40), (0, 0, 0, 0))
    assert is_near(opened(to_webp(saved(image, "PNG"))).getpixel((20, 20)), (255, 255, 255))


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "CMYK", "I;16"])
def test_every_usual_kind_of_pixel_keeps_its_brightness(mode: str) -> None:
    if mode == "I;16":
        image = Image.new(mode, (40, 40), 128 * 256)
    else:
        image = Image.new("L", (40, 40), 255 if mode == "1" else 128).convert(mode)
    level = 255 if mode == "1" else 128
    found = opened(to_webp(saved(image, "JPEG" if mode == "CMYK" else "PNG"))).getpixel((20, 20))
    assert is_near(found, (level, level, level))


def test_the_same_bytes_give_the_same_photo() -> None:
    original = saved(red_above_blue(1500, 900), "JPEG")
    assert to_webp(original) == to_webp(original)


def bomb(width: int, height: int) -> bytes:
    def chunk(kind: bytes, body: bytes) -> bytes:
        return len(body).to_bytes(4, "big") + kind + body + zlib.crc32(kind + body).to_bytes(4, "big")

    header = width.to_bytes(4, "big") + height.to_bytes(4, "big") + b"\x08\x02\x00\x00\x00"
    return (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", zlib.compress(b"\0" * 9)) + chunk(b"IEND", b"")
    )


@pytest.mark.parametrize("size", [(8001, 8001), (9000, 9000), (60_000, 60_000)])
def test_photos_that_unpack_to_too_much_are_refused(size: tuple[int, int]) -> None:
    with pytest.raises(UnreadablePicture):
        to_webp(bomb(*size))


@pytest.mark.parametrize(
    "data", [b"", b"hello", b"<svg/>", saved(red_above_blue(9, 9), "GIF"), saved(red_above_blue(9, 9), "TIFF")]
)
def test_other_files_are_refused(data: bytes) -> None:
    with pytest.raises(UnreadablePicture, match="no JPEG, PNG or WebP"):
        to_webp(data)


def test_too_many_bytes_are_refused_unread() -> None:
    with pytest.raises(UnreadablePicture, match="larger"):
        to_webp(b"x" * 40_000_001)


DAMAGED = [saved(red_above_blue(64, 48), kind, exif=exif(6)) for kind in ("JPEG", "PNG", "WEBP")]


@pytest.mark.filterwarnings("ignore::UserWarning:PIL")
@settings(max_examples=150, deadline=None)
@given(st.sampled_from(DAMAGED), st.integers(0, 4000), st.binary(min_size=1, max_size=8), st.booleans())
def test_damage_is_refused_or_survived(original: bytes, at: int, junk: bytes, cut: bool) -> None:
    at %= len(original)
    data = original[:at] + junk + (b"" if cut else original[at + len(junk) :])
    try:
        photo = to_webp(data)
    except UnreadablePicture:
        return
    assert max(photo.width, photo.height) <= LONGEST_SIDE
