"""kbgen upgrade: move files to the present version of the format; comments and layout stay as they are."""

from __future__ import annotations

import argparse
import codecs
import difflib
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

from kbgen.library.folder import Folder
from kbgen.model.decode import FORMAT
from kbgen.upgrade.upgrade import NotUpgradedError, upgrade

NAME = "upgrade"
HELP = "Move files to the present version of the format, without losing comments or layout."


def arguments(command: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    command.add_argument("paths", nargs="*", type=Path, help="a knowledge base, or files in one (default: procedures)")
    command.add_argument("--dry-run", action="store_true", help="show what would change, and change nothing")


def run(options: argparse.Namespace) -> int:
    """Upgrade each file that needs it; a file that cannot be upgraded does not stop the others."""
    paths: list[Path] = options.paths or [Path("procedures")]
    missing = [path for path in paths if not path.exists()]
    if missing:
        print(f"kbgen: there is no file or folder “{missing[0]}”.", file=sys.stderr)
        return 2
    files = list(dict.fromkeys(file for path in paths for file in _files(path)))
    changed = failed = 0
    for file in files:
        try:
            changed += _upgrade(file, options.dry_run)
        except NotUpgradedError as error:
            print(f"kbgen: {file} was left as it is: {error}.", file=sys.stderr)
            failed += 1
    print(_summary(len(files), changed, options.dry_run))
    return 1 if failed else 0


def _files(path: Path) -> Sequence[Path]:
    if path.is_file():
        return [path]
    folder = Folder(path, "")
    return [*(path / file.path for file in folder.table_files()), *folder.procedure_paths()]


def _upgrade(file: Path, is_trial: bool) -> bool:
    data = file.read_bytes()
    mark = codecs.BOM_UTF8 if data.startswith(codecs.BOM_UTF8) else b""
    try:
        before = data.removeprefix(mark).decode("utf-8")
    except UnicodeDecodeError:
        raise NotUpgradedError("it is not UTF-8 text") from None
    after = upgrade(before)
    if after.before == FORMAT:
        return False
    for line in _difference(file, before, after.text):
        print(line)
    if not is_trial:
        file.write_bytes(mark + after.text.encode("utf-8"))
        print(f"{file}: moved from format {after.before} to format {FORMAT}.")
    return True


def _difference(file: Path, before: str, after: str) -> Iterator[str]:
    return difflib.unified_diff(before.splitlines(), after.splitlines(), str(file), str(file), n=0, lineterm="")


def _summary(files: int, changed: int, is_trial: bool) -> str:
    done = "would be moved" if is_trial else "moved"
    return f"{files} {'file' if files == 1 else 'files'} looked at, {changed} {done} to format {FORMAT}."
