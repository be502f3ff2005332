"""Read and check a knowledge base; what was worked out before is taken from the cache."""

from __future__ import annotations

import datetime
import hashlib
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from functools import partial

from kbgen.analysis.digest import Digest
from kbgen.analysis.digests import digest_of
from kbgen.cache import Cache, key_of
from kbgen.check.case import Case, Overview
from kbgen.check.catalogue import check_overview, check_procedure, check_tables
from kbgen.check.speech import Speech
from kbgen.cores import spread
from kbgen.diagnostics import Diagnostic, in_order
from kbgen.language.wanted import Language
from kbgen.library.folder import Folder, SourceFile, read_procedure, read_tables
from kbgen.library.ledger import Address, parse
from kbgen.memory import seldom_collected
from kbgen.model.shared import Shared
from kbgen.route.trace import trace


@dataclass(frozen=True)
class Checked:
    """What checking one procedure comes to; ``pictures`` ties it to the pictures that it was checked with."""

    digest: Digest | None
    found: tuple[Diagnostic, ...]
    pictures: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Examination:
    """A knowledge base that has been read and checked."""

    folder: Folder
    shared: Shared
    shared_key: str
    files: tuple[SourceFile, ...]
    checked: tuple[Checked, ...]
    found: tuple[Diagnostic, ...]
    table_files: int
    published: tuple[Address, ...] = field(default=())

    @property
    def digests(self) -> tuple[Digest, ...]:
        """The digests of all procedures that could be read."""
        return tuple(one.digest for one in self.checked if one.digest is not None)


Progress = Callable[[Sequence[SourceFile]], Iterable[SourceFile]]
Keep = Callable[[str, Case], object]


def _no_progress(files: Sequence[SourceFile]) -> Iterable[SourceFile]:
    return files


@seldom_collected()
def examine(
    folder: Folder,
    as_of: datetime.date | None,
    cache: Cache,
    progress: Progress = _no_progress,
    keep: Keep | None = None,
    language: Language = Language(),  # noqa: B008  # frozen
) -> Examination:
    """Read and check everything in a folder. ``as_of`` is the day on which reviews are judged overdue, or None.

    ``keep`` is given the path and the case of every procedure that had to be read, for work that follows; without it
    nothing of the cases is needed here, and the procedures are read on all cores.
    """
    tables = folder.table_files()
    shared, found_in_tables = read_tables(folder, tables)
    key = key_of(*(f"{file.path}:{file.digest}" for file in tables))
    files = tuple(folder.procedure_files())
    speech = Speech(shared, language)
    checked = _checked(folder, files, speech, key, cache, progress, keep)
    published = _published(folder)
    digests = tuple(one.digest for one in checked if one.digest is not None)
    overview = Overview(shared, digests, as_of, complete=len(digests) == len(checked))
    found = [
        *found_in_tables,
        *check_tables(speech),
        *(finding for one in checked for finding in one.found),
        *check_overview(overview, published),
    ]
    return Examination(folder, shared, key, files, checked, in_order(found), len(tables), published)


def open_case(folder: Folder, file: SourceFile, shared: Shared) -> tuple[Case | None, tuple[Diagnostic, ...]]:
    """Read one procedure and trace its route."""
    decoded, found = read_procedure(folder, file)
    if decoded is None:
        return None, found
    return Case(decoded, trace(decoded.record, shared), shared, lambda path: folder.read_beside(file, path)), found


def _checked(
    folder: Folder,
    files: Sequence[SourceFile],
    speech: Speech,
    shared_key: str,
    cache: Cache,
    progress: Progress,
    keep: Keep | None,
) -> tuple[Checked, ...]:
    base = (shared_key, speech.language.key)
    keys = {file.path: key_of("checked", folder.shown(file.path), file.digest, *base) for file in files}
    checked = {file.path: _known(folder, file, cache.get(keys[file.path])) for file in files}
    fresh = [file for file in files if checked[file.path] is None]
    work = partial(_check, folder, speech, keep)
    made = spread(work, fresh) if keep is None else map(work, fresh)
    for file, one, _ in zip(fresh, made, progress(fresh), strict=True):
        checked[file.path] = one
        cache.put(keys[file.path], one)
    return tuple(one for one in checked.values() if one is not None)


def _known(folder: Folder, file: SourceFile, kept: object) -> Checked | None:
    if isinstance(kept, Checked) and all(_picture_hash(folder, file, path) == value for path, value in kept.pictures):
        return kept
    return None


def _check(folder: Folder, speech: Speech, keep: Keep | None, file: SourceFile) -> Checked:
    case, found = open_case(folder, file, speech.shared)
    if case is None:
        return Checked(None, found, ())
    if keep is not None:
        keep(file.path, case)
    found = (*found, *check_procedure(case, speech))
    digest = digest_of(file.path, case.decoded, case.route, speech.shared) if case.procedure.id else None
    pictures = tuple((str(path), _picture_hash(folder, file, path)) for path in case.decoded.paths if path)
    return Checked(digest, in_order(found), pictures)


def _picture_hash(folder: Folder, file: SourceFile, path: str) -> str:
    try:
        return hashlib.sha256(folder.read_beside(file, path)).hexdigest()
    except OSError:
        return ""


def _published(folder: Folder) -> tuple[Address, ...]:
    path = folder.ledger_path()
    if not path.is_file():
        return ()
    return parse(folder.shown(path.name), path.read_text(encoding="utf-8"))
