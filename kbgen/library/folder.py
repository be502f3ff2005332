"""Find and read the files of a knowledge base."""

from __future__ import annotations

import errno
import os
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from kbgen.diagnostics import Diagnostic
from kbgen.library.stamps import Stamps, digest_of
from kbgen.model.decode import Decoded, decode
from kbgen.model.procedure import Procedure
from kbgen.model.shared import Shared
from kbgen.model.tables import Tables
from kbgen.source.read import read_bytes

TABLES = "tables"
LEDGER = "addresses.txt"


@dataclass(frozen=True)
class SourceFile:
    """A YAML file: its path below the knowledge base, and the digest of its bytes."""

    path: str
    digest: str


@dataclass(frozen=True)
class Folder:
    """The folder of a knowledge base; ``shown_as`` is how findings name it."""

    root: Path
    shown_as: str

    def table_files(self, stamps: Stamps | None = None) -> list[SourceFile]:
        """Files of shared tables, in the order of their paths; ``stamps`` saves reading those that it knows."""
        return self._files(self._names(f"{TABLES}/") if (self.root / TABLES).is_dir() else (), stamps)

    def procedure_files(self, stamps: Stamps | None = None) -> list[SourceFile]:
        """Procedure files, in the order of their paths; ``stamps`` saves reading those that it knows."""
        return self._files(self._procedure_names(), stamps)

    def procedure_paths(self) -> list[Path]:
        """Procedure files, in the order of their paths."""
        return [self.root / name for name in _in_order(self._procedure_names())]

    def read(self, file: SourceFile) -> bytes:
        """The bytes of a file; raise OSError if it was changed or removed since it was listed."""
        path = self.root / file.path
        data = path.read_bytes()
        if digest_of(data) != file.digest:
            raise OSError(errno.ESTALE, "changed while it was being checked", str(path))
        return data

    def shown(self, path: str) -> str:
        """The name of a file in findings."""
        return f"{self.shown_as}/{path}" if self.shown_as else path

    def beside(self, file: SourceFile, relative: str) -> str:
        """The path below the knowledge base that a path in a file means; raise OSError if it leads out of it."""
        path = f"{file.path.rpartition('/')[0]}/{relative}".lstrip("/")
        if not self._holds(os.fspath(self.root / path)):
            raise FileNotFoundError(relative)
        return path

    def read_beside(self, file: SourceFile, relative: str) -> bytes:
        """Read what a path in a file means; raise OSError if it is missing or outside the knowledge base."""
        return (self.root / self.beside(file, relative)).read_bytes()

    def ledger_path(self) -> Path:
        """The list of addresses that were published."""
        return self.root / LEDGER

    @cached_property
    def _real_root(self) -> str:
        return os.path.join(os.path.realpath(self.root), "")  # noqa: PTH118  # with the slash at its end

    def _is_own(self, entry: os.DirEntry[str]) -> bool:
        return not entry.is_symlink() or self._holds(entry.path)

    def _holds(self, path: str) -> bool:
        return os.path.realpath(path).startswith(self._real_root)

    def _procedure_names(self) -> Iterator[str]:
        return (name for name in self._names() if not name.startswith(f"{TABLES}/"))

    def _names(self, below: str = "") -> Iterator[str]:
        """Paths of all YAML files but hidden ones; links lead on to files of the knowledge base only."""
        with os.scandir(self.root / below) as entries:
            for entry in entries:
                if entry.name.startswith((".", "_")):
                    continue
                if entry.is_dir(follow_symlinks=False):
                    yield from self._names(f"{below}{entry.name}/")
                elif entry.name.endswith(".yaml") and entry.is_file() and self._is_own(entry):
                    yield f"{below}{entry.name}"

    def _files(self, names: Iterable[str], stamps: Stamps | None) -> list[SourceFile]:
        known = stamps or Stamps(self.root)
        return [SourceFile(name, known.digest(name)) for name in _in_order(names)]


def _in_order(names: Iterable[str]) -> list[str]:
    """Sort by folder and name, so that what lies in a folder stays together."""
    return sorted(names, key=lambda name: name.split("/"))


def read_tables(folder: Folder, files: Sequence[SourceFile]) -> tuple[Shared, tuple[Diagnostic, ...]]:
    """Read all shared tables; files too broken to read are reported and left out."""
    decoded: list[Decoded[Tables]] = []
    found: list[Diagnostic] = []
    for file in files:
        read = read_bytes(folder.shown(file.path), folder.read(file))
        found.extend(read.found)
        if read.value is not None:
            decoded.append(decode(Tables, read.value))
            found.extend(decoded[-1].found)
    return Shared(tuple(decoded)), tuple(found)


def read_procedure(folder: Folder, file: SourceFile) -> tuple[Decoded[Procedure] | None, tuple[Diagnostic, ...]]:
    """Read one procedure; None when the file is too broken to read."""
    read = read_bytes(folder.shown(file.path), folder.read(file))
    if read.value is None:
        return None, read.found
    decoded = decode(Procedure, read.value)
    return decoded, (*read.found, *decoded.found)
