"""Find and read the files of a knowledge base."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from kbgen.diagnostics import Diagnostic
from kbgen.model.decode import Decoded, decode
from kbgen.model.procedure import Procedure
from kbgen.model.shared import Shared
from kbgen.model.tables import Tables
from kbgen.source.read import read_bytes

TABLES = "tables"
LEDGER = "addresses.txt"


@dataclass(frozen=True)
class SourceFile:
    """A YAML file: its path below the knowledge base, and its bytes."""

    path: str
    data: bytes

    @cached_property
    def digest(self) -> str:
        """Hash of the bytes."""
        return hashlib.sha256(self.data).hexdigest()


@dataclass(frozen=True)
class Folder:
    """The folder of a knowledge base; ``shown_as`` is how findings name it."""

    root: Path
    shown_as: str

    def table_files(self) -> list[SourceFile]:
        """Files of shared tables, in the order of their paths."""
        return [
            self._read(path) for path in sorted((self.root / TABLES).rglob("*.yaml")) if _is_visible(path, self.root)
        ]

    def procedure_paths(self) -> list[Path]:
        """Procedure files, in the order of their paths."""
        tables = self.root / TABLES
        found = (path for path in self.root.rglob("*.yaml") if tables not in path.parents)
        return sorted(path for path in found if _is_visible(path, self.root))

    def procedure_files(self) -> list[SourceFile]:
        """Procedure files with their bytes."""
        return [self._read(path) for path in self.procedure_paths()]

    def shown(self, path: str) -> str:
        """The name of a file in findings."""
        return f"{self.shown_as}/{path}" if self.shown_as else path

    def read_beside(self, file: SourceFile, relative: str) -> bytes:
        """Read what a path in a file means; raise OSError if it is missing or outside the knowledge base."""
        path = (self.root / file.path).parent / relative
        if not path.resolve().is_relative_to(self.root.resolve()):
            raise FileNotFoundError(relative)
        return path.read_bytes()

    def ledger_path(self) -> Path:
        """The list of addresses that were published."""
        return self.root / LEDGER

    def _read(self, path: Path) -> SourceFile:
        return SourceFile(path.relative_to(self.root).as_posix(), path.read_bytes())


def _is_visible(path: Path, root: Path) -> bool:
    parts = path.relative_to(root).parts
    return path.is_file() and not any(part.startswith((".", "_")) for part in parts) and _stays_inside(path, root)


def _stays_inside(path: Path, root: Path) -> bool:
    return not path.is_symlink() or path.resolve().is_relative_to(root.resolve())


def read_tables(folder: Folder, files: list[SourceFile]) -> tuple[Shared, tuple[Diagnostic, ...]]:
    """Read all shared tables; files too broken to read are reported and left out."""
    decoded: list[Decoded[Tables]] = []
    found: list[Diagnostic] = []
    for file in files:
        read = read_bytes(folder.shown(file.path), file.data)
        found.extend(read.found)
        if read.value is not None:
            decoded.append(decode(Tables, read.value))
            found.extend(decoded[-1].found)
    return Shared(tuple(decoded)), tuple(found)


def read_procedure(folder: Folder, file: SourceFile) -> tuple[Decoded[Procedure] | None, tuple[Diagnostic, ...]]:
    """Read one procedure; None when the file is too broken to read."""
    read = read_bytes(folder.shown(file.path), file.data)
    if read.value is None:
        return None, read.found
    decoded = decode(Procedure, read.value)
    return decoded, (*read.found, *decoded.found)
