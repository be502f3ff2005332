"""Where knowledge bases lie, seen from what was named on the command line."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from kbgen.library.folder import TABLES, Folder

_KBGEN_KEY = re.compile(rb"^kbgen[ \t]*:", re.MULTILINE)


def find_folder(path: Path) -> Folder:
    """The knowledge base that a file or folder belongs to: the nearest one upwards that has shared tables."""
    found = _enclosing(path)
    if found is not None:
        return found
    start = path if path.is_dir() else path.parent
    return Folder(start, shown(start))


@dataclass(frozen=True)
class Asked:
    """Files and folders by the knowledge base that they belong to, and the files that belong to none."""

    folders: Mapping[Folder, Sequence[Path]]
    passed_over: Sequence[Path]


def by_folder(paths: Iterable[Path]) -> Asked:
    """Sort files and folders by knowledge base.

    A file that lies in none belongs to one all the same if it says that it is written for kbgen. The others must not
    be an error: whoever hands over all changed YAML files of a repository, as a hook does, hands over other ones too.
    """
    found: dict[Path, Folder] = {}
    folders: dict[Folder, list[Path]] = {}
    passed_over = []
    for path in paths:
        if path.is_dir() or _enclosing(path) is not None or _is_for_kbgen(path):
            folder = find_folder(path)
            folders.setdefault(found.setdefault(folder.root.resolve(), folder), []).append(path)
        else:
            passed_over.append(path)
    return Asked(folders, passed_over)


def below_repository(name: str) -> str:
    """The path of a file that findings name, below the root of the git repository around the current folder.

    Outside a repository it stays as it is shown: relative to the current folder, or absolute if it lies elsewhere.
    """
    here = Path.cwd()
    root = next((folder for folder in (here, *here.parents) if (folder / ".git").exists()), here)
    path = here / name
    return path.relative_to(root).as_posix() if path.is_relative_to(root) else name


def _enclosing(path: Path) -> Folder | None:
    candidates = (path, *path.resolve().parents)
    return next((Folder(one, shown(one)) for one in candidates if (one / TABLES).is_dir()), None)


def _is_for_kbgen(path: Path) -> bool:
    return path.suffix == ".yaml" and _KBGEN_KEY.search(path.read_bytes()) is not None


def shown(path: Path) -> str:
    """The path as it is shown in findings: relative to where the command runs, if it lies below."""
    try:
        shown = path.resolve().relative_to(Path.cwd().resolve()).as_posix()
    except ValueError:
        shown = path.resolve().as_posix()
    return "" if shown == "." else shown
