"""kbgen new: begin a procedure from a commented skeleton."""

from __future__ import annotations

import argparse
import datetime
import re
import sys
from pathlib import Path

from kbgen.cache import open_cache
from kbgen.check.near import did_you_mean
from kbgen.commands.configuration import settings_of
from kbgen.commands.places import find_folder
from kbgen.commands.progress import shown
from kbgen.examine import Examination, examine
from kbgen.model.values import ID_MAX_LENGTH, ID_PATTERN
from kbgen.skeleton.fill import missing_tables, names_from, skeleton

NAME = "new"
HELP = "Begin a new procedure from a skeleton that explains every key."

_SCHEMA = "kbgen-procedure.schema.json"


class _RefusalError(Exception):
    """Why no procedure is begun."""


def arguments(command: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    command.add_argument("id", help="permanent name of the procedure, for example belt-slips")
    command.add_argument("--family", required=True, help="equipment family, as the tables name it")
    command.add_argument("--title", default="Write what is wrong", help="what is wrong, as a technician would say it")
    command.add_argument(
        "--in", dest="folder", type=Path, default=Path("procedures"), metavar="FOLDER", help="the knowledge base"
    )


def run(options: argparse.Namespace) -> int:
    """Write the skeleton, or say why not."""
    try:
        path = _begin(options)
    except _RefusalError as refused:
        print(f"kbgen: {refused}", file=sys.stderr)
        return 2
    print(f"{path}: begun. Replace every text that begins with “Write”, then run kbgen check {path}")
    if not (path.parent.parent / _SCHEMA).is_file():
        print(f"For help while typing, write the schema for your editor: kbgen schema --write {path.parent.parent}")
    return 0


def _begin(options: argparse.Namespace) -> Path:
    if not options.folder.is_dir():
        raise _RefusalError(f"there is no folder “{options.folder}”.")
    if not re.fullmatch(ID_PATTERN, options.id) or len(options.id) > ID_MAX_LENGTH:
        raise _RefusalError(
            f"“{options.id}” is no permanent name; it has small letters, digits and single hyphens, "
            f"at most {ID_MAX_LENGTH} in all, for example belt-slips."
        )
    if not " ".join(options.title.split()).isprintable():
        raise _RefusalError("the title holds characters that cannot be shown.")
    folder = find_folder(options.folder)
    cache = open_cache(str(folder.root.resolve()), "check")
    examined = examine(folder, None, cache, shown("Reading"), language=settings_of(folder).language)
    cache.save()
    _refuse_unfit(options, examined)
    path: Path = folder.root / options.family / f"{options.id}.yaml"
    if path.exists():
        raise _RefusalError(f"“{path}” exists and is left as it is.")
    _write(path, _text(options, examined))
    return path


def _refuse_unfit(options: argparse.Namespace, examined: Examination) -> None:
    missing = missing_tables(examined.shared)
    if missing:
        tables = examined.folder.root / "tables"
        raise _RefusalError(f"first add at least one entry to each of these tables in {tables}: {', '.join(missing)}.")
    families = examined.shared.families
    if options.family not in families:
        near = did_you_mean(options.family, families, "There are: " + ", ".join(sorted(families)) + ".")
        raise _RefusalError(f"the tables know no equipment family “{options.family}”. {near}")
    known = next((one for one in examined.digests if one.id == options.id), None)
    if known is not None:
        raise _RefusalError(f"the permanent name “{options.id}” is taken by {examined.folder.root / known.path}.")


def _text(options: argparse.Namespace, examined: Examination) -> str:
    title = " ".join(options.title.split())
    return skeleton(options.id, title, options.family, names_from(examined.shared), datetime.date.today())


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(exist_ok=True)
    with path.open("x", encoding="utf-8", newline="\n") as file:
        file.write(text)
