"""KB203: a picture is missing or cannot be shown."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.pictures.load import load
from kbgen.pictures.unreadable import UnreadablePicture

from .case import Case

RULE = Rule(
    code="KB203",
    name="unusable-picture",
    severity=Severity.ERROR,
    summary="A picture is not there, or cannot be shown safely.",
    rationale=(
        "At the machine there is no second source: a gap where the picture of the terminals belongs costs the job."
    ),
    remedy=(
        "Put the file beside the procedure, as SVG, PNG, JPEG or WebP, and write its path below the procedure's folder."
    ),
    example=Example("conveyors/belt-slips.yaml", good="file: pictures/drum.svg", bad="file: pictures/drums.svg"),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Report pictures that are missing, unreadable or of a kind that is not shown."""
    for picture in case.procedure.pictures:
        if not picture.file or picture.file in case.fit_pictures:
            continue
        try:
            load(picture.file, case.read_picture(picture.file))
        except OSError:
            message = f"The picture “{picture.file}” is not there."
            yield Diagnostic(RULE, picture.file.at, message, RULE.remedy)
        except UnreadablePicture as error:
            message = f"The picture “{picture.file}” cannot be shown: {error.reason}."
            yield Diagnostic(RULE, picture.file.at, message, RULE.remedy)
