"""All mutants: each knowledge base with one defect, judged by one procedure that it touches."""

from __future__ import annotations

import random
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, field
from functools import cached_property

from tests.proof import (
    mutate_changes,
    mutate_energy,
    mutate_proof,
    mutate_reach,
    mutate_readings,
    mutate_time,
    mutate_ways,
)
from tests.proof.bases import Base
from tests.proof.edits import steps_of
from tests.proof.mutate_whole import SOURCE_MUTATORS, WHOLE_MUTATORS
from tests.proof.scope import Mutator, Scope
from tests.proof.tables import Data, Tables, listed

STEP_MUTATORS: dict[str, Mutator] = {
    **mutate_energy.MUTATORS,
    **mutate_proof.MUTATORS,
    **mutate_reach.MUTATORS,
    **mutate_ways.MUTATORS,
    **mutate_changes.MUTATORS,
    **mutate_readings.MUTATORS,
    **mutate_time.MUTATORS,
}
KINDS = (*STEP_MUTATORS, *WHOLE_MUTATORS, *SOURCE_MUTATORS)
SEED = 20261125


@dataclass(frozen=True)
class Mutant:
    """A knowledge base with one defect. ``file`` is the procedure that shows it, ``place`` where it was made.

    ``table`` is the path and the content of the file of tables that was changed, if one was.
    """

    kind: str
    base: Base
    file: str
    place: str
    procedure: Data = field(repr=False)
    table: tuple[str, Data] | None = field(default=None, repr=False)

    @cached_property
    def tables(self) -> Tables:
        """The shared tables, with the defect if it was made there."""
        return Tables(tuple({**self.base.table_files, **dict([self.table] if self.table else [])}.values()))

    def __str__(self) -> str:
        return f"{self.kind}: {self.base.root.name}/{self.file}, {self.place}"


def all_mutants(base: Base) -> Iterator[Mutant]:
    """Every defect of every kind, at every place where it can be made."""
    tables = base.tables
    for file, procedure in base.procedures.items():
        yield from _in_procedure(base, file, procedure, tables)
    for path, data in base.table_files.items():
        yield from _in_sequences(base, path, data, tables)
        yield from _in_sources(base, path, data)


def in_every_run(base: Base, kinds: Collection[str]) -> Iterator[Mutant]:
    """The defects of some kinds in shared sequences, each in every procedure that runs the sequence."""
    tables = base.tables
    for path, data in base.table_files.items():
        for sequence in data.get("sequences", ()):
            for file, run in _runs(base, sequence["id"]).items():
                yield from (
                    one for one in _in_sequence(base, path, data, sequence, file, run, tables) if one.kind in kinds
                )


def sampled(mutants: Iterable[Mutant], most: int, always: Collection[str]) -> list[Mutant]:
    """All mutants of the tables and of some kinds; of each other kind at most so many, the same ones every time."""
    chosen: list[Mutant] = []
    alike: dict[str, list[Mutant]] = {kind: [] for kind in KINDS}
    for mutant in mutants:
        (chosen if mutant.table or mutant.kind in always else alike[mutant.kind]).append(mutant)
    for some in alike.values():
        chosen += random.Random(SEED).sample(some, most) if len(some) > most else some
    return chosen


def _in_procedure(base: Base, file: str, procedure: Data, tables: Tables) -> Iterator[Mutant]:
    scope = Scope(procedure["steps"], tables, {}, listed(procedure["temporary-changes"]))
    for kind, mutator in STEP_MUTATORS.items():
        for edit in mutator(scope):
            yield Mutant(kind, base, file, edit.place, {**procedure, "steps": edit.groups})
    for kind, whole in WHOLE_MUTATORS.items():
        for place, mutated in whole(procedure):
            yield Mutant(kind, base, file, place, mutated)


def _in_sequences(base: Base, path: str, data: Data, tables: Tables) -> Iterator[Mutant]:
    """Each defect once, shown by the first procedure that runs the sequence."""
    for sequence in data.get("sequences", ()):
        for file, run in list(_runs(base, sequence["id"]).items())[:1]:
            yield from _in_sequence(base, path, data, sequence, file, run, tables)


def _in_sequence(
    base: Base, path: str, data: Data, sequence: Data, file: str, run: Data, tables: Tables
) -> Iterator[Mutant]:
    scope = Scope(sequence["steps"], tables, run.get("with") or {})
    for kind, mutator in STEP_MUTATORS.items():
        for edit in mutator(scope):
            table = _with_item(data, "sequences", sequence, {**sequence, "steps": edit.groups})
            place = f"{sequence['id']}.{edit.place}"
            yield Mutant(kind, base, file, place, base.procedures[file], (path, table))


def _in_sources(base: Base, path: str, data: Data) -> Iterator[Mutant]:
    for source in data.get("energy-sources", ()):
        for file, procedure in base.procedures.items():
            if source["id"] in listed(procedure["before"]["energy"]):
                for kind, mutator in SOURCE_MUTATORS.items():
                    for mutated in mutator(source):
                        table = _with_item(data, "energy-sources", source, mutated)
                        yield Mutant(kind, base, file, source["id"], procedure, (path, table))
                break


def _runs(base: Base, sequence: str) -> dict[str, Data]:
    """The procedures that run a sequence, each with its first run."""
    found: dict[str, Data] = {}
    for file, procedure in base.procedures.items():
        for step in steps_of(procedure["steps"]):
            if step.get("run") == sequence:
                found.setdefault(file, step)
    return found


def _with_item(data: Data, key: str, old: Data, new: Data) -> Data:
    return {**data, key: [new if one is old else one for one in data[key]]}
