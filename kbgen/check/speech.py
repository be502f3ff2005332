"""What is said in steps, and what a knowledge base asks of it: the input of the rules of language."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from typing import NamedTuple

from kbgen.language.codes import Codes, codes_of
from kbgen.language.imperative import imperative_start
from kbgen.language.lookup import tokens
from kbgen.language.terms import Terms, terms_of
from kbgen.language.wanted import Language
from kbgen.model.shape import ListShape, RecordShape, ScalarShape, Shape
from kbgen.model.shared import Shared
from kbgen.model.steps import (
    STEP_KINDS,
    Ask,
    Change,
    Do,
    Energise,
    Group,
    Isolate,
    Lock,
    Prove,
    Read,
    Release,
    ShutDown,
    Step,
    Undo,
    Unlock,
)
from kbgen.model.values import Prose, Text

INSTRUCTIONS = (Do, Change, Undo, ShutDown, Isolate, Lock, Release, Prove, Unlock, Energise, Read)
_REMARKS = ("note", "outcome")


class _Fields(NamedTuple):
    """The attributes of a kind of step that hold its words."""

    instruction: str | None
    remarks: tuple[str, ...]
    texts: tuple[str, ...]
    lists: tuple[str, ...]


@dataclass(frozen=True)
class Said:
    """The words of some steps: instructions, then notes and outcomes, then all else, questions and answers above all.

    ``prose`` is all prose of the file in which the steps stand.
    """

    instructions: tuple[Text, ...]
    remarks: tuple[Text, ...]
    others: tuple[Text, ...]
    prose: tuple[Prose, ...]

    @property
    def texts(self) -> tuple[Text, ...]:
        """Every text of the steps."""
        return self.instructions + self.remarks + self.others

    @cached_property
    def words(self) -> frozenset[bytes]:
        """Every word of the steps, to tell in a moment what cannot occur."""
        return frozenset(tokens("\n".join(self.texts)))


@dataclass(frozen=True)
class Speech:
    """What a knowledge base asks of the words in its steps: its settings, its glossary and its codes."""

    shared: Shared
    language: Language

    @cached_property
    def terms(self) -> Terms:
        """The terms of the glossary, and the words they stand for."""
        return terms_of((str(one.term), tuple(map(str, one.also))) for one in self.shared.glossary)

    @cached_property
    def codes(self) -> Codes:
        """The alarm codes and part numbers of the tables."""
        shared = self.shared
        numbers = (str(part.number) for part in shared.parts.values())
        return codes_of((*(str(code) for _, code in shared.alarms), *numbers), _labels(shared))


def _labels(shared: Shared) -> Iterator[str]:
    """Texts of the tables in which marks and labels of the plant stand."""
    for unit in shared.units.values():
        yield from (unit.tag, unit.where, unit.serial or "", *(module.serves for module in unit.modules))
    for point in shared.points.values():
        yield from (point.name, point.device, point.where)
    yield from (text for display in shared.displays.values() for text in (display.name, display.where))
    yield from (one.name for table in (shared.energy, shared.tools, shared.parts) for one in table.values())


def _fields(kind: type[Step]) -> _Fields:
    shapes = {key.attribute: key.shape for key in RecordShape(kind).keys.values()}
    prose = [name for name, shape in shapes.items() if _is_prose(shape)]
    start = kind.starts_with.replace("-", "_") if kind in INSTRUCTIONS else None
    return _Fields(
        instruction=start,
        remarks=tuple(name for name in prose if name in _REMARKS),
        texts=tuple(name for name in prose if name not in _REMARKS and name != start),
        lists=tuple(name for name, shape in shapes.items() if isinstance(shape, ListShape) and _is_prose(shape.item)),
    )


def _is_prose(shape: Shape) -> bool:
    return isinstance(shape, ScalarShape) and shape.type is Prose


_FIELDS = {kind: _fields(kind) for kind in STEP_KINDS}


def said_in(groups: Iterable[Group], prose: Iterable[Prose]) -> Said:
    """Gather the words of steps; ``prose`` is all prose of the file in which they stand."""
    instructions: list[Text] = []
    remarks: list[Text | None] = []
    others: list[Text | None] = []
    for step in (step for group in groups for step in group.steps if step is not None):
        values, fields = step.__dict__, _FIELDS[type(step)]
        if fields.instruction:
            instructions.append(values[fields.instruction])
        remarks += [values[name] for name in fields.remarks]
        others += [values[name] for name in fields.texts]
        for name in fields.lists:
            others += values[name]
        if isinstance(step, (Ask, Read)):
            others += [one.answer for one in (step.answers if isinstance(step, Ask) else step.bands)]
    return Said(_written(instructions), _written(remarks), _written(others), tuple(prose))


def said_in_tables(speech: Speech) -> Said:
    """Gather the words of the shared sequences, and of the proofs that stand in their steps as {supply.prove}.

    A proof that begins with no verb tells that there is none, and is no instruction.
    """
    shared, verbs = speech.shared, speech.language.known_verbs
    groups = (group for sequence in shared.sequences.values() for group in sequence.steps)
    said = said_in(groups, (text for file in shared.files for text in file.prose))
    proofs = (source.prove for source in shared.energy.values())
    told = tuple(proof for proof in proofs if imperative_start(proof, verbs) is not None)
    return replace(said, instructions=(*said.instructions, *told))


def _written(texts: Iterable[Text | None]) -> tuple[Text, ...]:
    return tuple([text for text in texts if text])
