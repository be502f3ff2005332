"""Where a knowledge base lies, seen from what was named on the command line."""

from __future__ import annotations

from pathlib import Path

from kbgen.library.folder import TABLES, Folder


def find_folder(path: Path) -> Folder:
    """The knowledge base that a file or folder belongs to: the nearest one upwards that has shared tables."""
    for candidate in (path, *path.resolve().parents):
        if (candidate / TABLES).is_dir():
            return Folder(candidate, _shown(candidate))
    start = path if path.is_dir() else path.parent
    return Folder(start, _shown(start))


def _shown(path: Path) -> str:
    """The path as it is shown in findings: relative to where the command runs, if it lies below."""
    try:
        shown = path.resolve().relative_to(Path.cwd().resolve()).as_posix()
    except ValueError:
        shown = path.resolve().as_posix()
    return "" if shown == "." else shown
