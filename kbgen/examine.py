"""Read and check a knowledge base; what was worked out before is taken from the cache."""

from __future__ import annotations

import datetime
import hashlib
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, partial

from kbgen.analysis.digest import Digest
from kbgen.analysis.digests import digest_of
from kbgen.cache import Cache, key_of
from kbgen.check import kb203_unusable_picture
from kbgen.check.case import Case, Overview
from kbgen.check.catalogue import check_overview, check_procedure, check_tables
from kbgen.check.speech import Speech
from kbgen.cores import spread
from kbgen.diagnostics import Diagnostic, in_order
from kbgen.language.wanted import Language
from kbgen.library.folder import Folder, SourceFile, read_procedure, read_tables
from kbgen.library.ledger import Address, parse
from kbgen.library.stamps import Stamps
from kbgen.memory import seldom_collected
from kbgen.model.shared import Shared
from kbgen.results import Checked, Results, packed
from kbgen.route.trace import trace

_STAMPS = key_of("stamps")


@dataclass(frozen=True)
class Examination:
    """A knowledge base that has been read and checked.

    ``beyond`` holds findings in the tables and about several procedures at once; ``checked`` those of each procedure.
    """

    folder: Folder
    shared: Shared
    shared_key: str
    files: tuple[SourceFile, ...]
    checked: tuple[Checked, ...]
    table_files: int
    published: tuple[Address, ...] = ()
    beyond: tuple[Diagnostic, ...] = ()

    @cached_property
    def digests(self) -> tuple[Digest, ...]:
        """The digests of all procedures that could be read."""
        return tuple(digest for one in self.checked if (digest := one.digest) is not None)

    @cached_property
    def found(self) -> tuple[Diagnostic, ...]:
        """All findings, in order."""
        return self.found_in(lambda path: True)

    def found_in(self, is_wanted: Callable[[str], bool]) -> tuple[Diagnostic, ...]:
        """The findings in files whose name is wanted, in order."""
        found = (*self.beyond, *(finding for one in self.checked for finding in one.found))
        wanted = {path: is_wanted(path) for path in {one.at.path for one in found}}
        return in_order(one for one in found if wanted[one.at.path])


Progress = Callable[[Sequence[SourceFile]], Iterable[SourceFile]]
Keep = Callable[[str, Case], object]
Pictures = tuple[tuple[str, str], ...]


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
    stamps = Stamps(folder.root, cache.get(_STAMPS))
    tables = folder.table_files(stamps)
    key = key_of(*(f"{file.path}:{file.digest}" for file in tables))
    shared, found_in_tables = cache.made(key_of("tables", folder.shown_as, key), lambda: read_tables(folder, tables))
    files = tuple(folder.procedure_files(stamps))
    speech = Speech(shared, language)
    base = (folder.shown_as, key, language.key)
    checked = _checked(folder, files, speech, Results(cache, *base), stamps, progress, keep)
    if stamps.has_news:
        cache.put(_STAMPS, stamps.seen)
    examined = Examination(folder, shared, key, files, checked, len(tables), _published(folder))
    beyond = (
        *found_in_tables,
        *cache.made(key_of("checked tables", *base), lambda: tuple(check_tables(speech))),
        *cache.made(_overview_key(examined, as_of, base), lambda: _check_overview(examined, as_of)),
    )
    return replace(examined, beyond=beyond)


def _overview_key(examined: Examination, as_of: datetime.date | None, base: Sequence[str]) -> str:
    digests = hashlib.sha256()
    for one in examined.checked:
        digests.update(len(one.packed).to_bytes(4) + one.packed)
    return key_of("overview", *base, str(as_of), digests.hexdigest(), repr(examined.published))


def _check_overview(examined: Examination, as_of: datetime.date | None) -> tuple[Diagnostic, ...]:
    digests = examined.digests
    overview = Overview(examined.shared, digests, as_of, complete=len(digests) == len(examined.checked))
    return tuple(check_overview(overview, examined.published))


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
    results: Results,
    stamps: Stamps,
    progress: Progress,
    keep: Keep | None,
) -> tuple[Checked, ...]:
    checked = {file.path: _known(folder, file, results.get(file), stamps) for file in files}
    fresh = [file for file in files if checked[file.path] is None]
    jobs = [(file, _fit_pictures(results.earlier(file))) for file in fresh]
    work = partial(_check, folder, speech, stamps, keep)
    made = spread(work, jobs) if keep is None else map(work, jobs)
    for file, one, _ in zip(fresh, made, progress(fresh), strict=True):
        checked[file.path] = one
        results.put(file, one)
    results.save(checked)
    return tuple(one for one in checked.values() if one is not None)


def _known(folder: Folder, file: SourceFile, kept: Checked | None, stamps: Stamps) -> Checked | None:
    """What is kept of a file, if the pictures are still the same."""
    if kept and all(_picture_digest(folder, file, path, stamps) == digest for path, digest in kept.pictures):
        return kept
    return None


def _fit_pictures(earlier: Checked | None) -> Pictures:
    """The pictures of a procedure that were found fit to be shown when it was checked last; judging them takes long."""
    if earlier is None or any(one.rule == kb203_unusable_picture.RULE for one in earlier.found):
        return ()
    return earlier.pictures


def _check(
    folder: Folder, speech: Speech, stamps: Stamps, keep: Keep | None, job: tuple[SourceFile, Pictures]
) -> Checked:
    file, fit = job
    case, found = open_case(folder, file, speech.shared)
    if case is None:
        return Checked(found, (), packed(None))
    if keep is not None:
        keep(file.path, case)
    paths = map(str, filter(None, case.decoded.paths))
    pictures = tuple((path, _picture_digest(folder, file, path, stamps)) for path in paths)
    case = replace(case, fit_pictures=frozenset(path for path, _ in {*pictures} & {*fit}))
    found = (*found, *check_procedure(case, speech))
    digest = digest_of(file.path, case.decoded, case.route, speech.shared) if case.procedure.id else None
    return Checked(in_order(found), pictures, packed(digest))


def _picture_digest(folder: Folder, file: SourceFile, path: str, stamps: Stamps) -> str:
    """The digest of a picture, or nothing if it is not there."""
    try:
        return stamps.digest(folder.beside(file, path))
    except OSError:
        return ""


def _published(folder: Folder) -> tuple[Address, ...]:
    path = folder.ledger_path()
    if not path.is_file():
        return ()
    return parse(folder.shown(path.name), path.read_text(encoding="utf-8"))
