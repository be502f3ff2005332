"""The knowledge bases that are put to the proof: the demo and the example."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

from tests.proof.tables import Data, Tables, load

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "procedures"
EXAMPLE = ROOT / "kbgen" / "example"


@dataclass(frozen=True)
class Base:
    """A knowledge base as plain data, each file under its path."""

    root: Path
    table_files: dict[str, Data] = field(repr=False)
    procedures: dict[str, Data] = field(repr=False)

    @property
    def tables(self) -> Tables:
        """Its shared tables."""
        return Tables(tuple(self.table_files.values()))


@cache
def base(root: Path) -> Base:
    """Read a knowledge base."""
    found = {path.relative_to(root).as_posix(): load(path) for path in sorted(root.rglob("*.yaml"))}
    tables = {path: data for path, data in found.items() if path.startswith("tables/")}
    return Base(root, tables, {path: data for path, data in found.items() if path not in tables})


def bases() -> tuple[Base, ...]:
    """All knowledge bases."""
    return base(DEMO), base(EXAMPLE)
