"""What pages show of a picture, and the file that the site holds of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from markupsafe import Markup

from kbgen.model.procedure import Picture, Procedure
from kbgen.pictures.callouts import Callout, overlay
from kbgen.pictures.load import load
from kbgen.pictures.unreadable import UnreadablePicture


@dataclass(frozen=True)
class PictureFile:
    """A file of the site: its path below the root, and its bytes."""

    path: str
    data: bytes


@dataclass(frozen=True)
class PictureView:
    """A picture with the numbers over it; ``callouts`` lists number and label."""

    href: str
    alt: str
    width: int
    height: int
    overlay: Markup
    callouts: tuple[tuple[int, str], ...]


def picture_views(
    procedure: Procedure, read: Callable[[str], bytes]
) -> tuple[dict[str, PictureView], tuple[PictureFile, ...]]:
    """The pictures of a procedure by their id, and their files. Pictures that cannot be shown are left out."""
    views: dict[str, PictureView] = {}
    files = []
    for picture in procedure.pictures:
        try:
            shown = load(picture.file, read(picture.file))
        except (OSError, UnreadablePicture):
            continue
        path = f"picture/{procedure.id}/{picture.id}{shown.suffix}"
        files.append(PictureFile(path, shown.data))
        views[picture.id] = _view(picture, path, shown.width, shown.height)
    return views, tuple(files)


def _view(picture: Picture, path: str, width: float, height: float) -> PictureView:
    callouts = [Callout(one.number, one.x, one.y, str(one.label)) for one in picture.callouts]
    return PictureView(
        href=f"../{path}",
        alt=str(picture.alt),
        width=round(width),
        height=round(height),
        overlay=Markup(overlay(width, height, callouts)) if callouts else Markup(""),
        callouts=tuple((one.number, one.label) for one in callouts),
    )
