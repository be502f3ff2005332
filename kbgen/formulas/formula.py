"""A formula as data: what goes in, what comes out, how it is worked out, where it comes from and where it ends."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum
from functools import cached_property

from kbgen.formulas.expression import parse, parse_condition
from kbgen.formulas.tree import Tree

TABLE = "table"


class Basis(Enum):
    """What a formula rests on."""

    DEFINITION = "definition"
    STANDARD = "standard"
    HANDBOOK = "handbook"
    PRACTICE = "common practice"


@dataclass(frozen=True)
class Source:
    """Where a formula comes from; ``from_memory`` where no document was at hand when it was written down."""

    basis: Basis
    reference: str
    from_memory: bool = False

    def __str__(self) -> str:
        behind = " (from memory: compare it with the document)" if self.from_memory else ""
        return f"{self.reference}{behind}"


@dataclass(frozen=True)
class Choice:
    """A number that stands for something, and the words for it, unless it is a mere number."""

    number: float
    words: str = ""

    def __str__(self) -> str:
        return f"{self.number:g}: {self.words}" if self.words else f"{self.number:g}"


@dataclass(frozen=True, kw_only=True)
class Input:
    """A value that a formula takes, from ``lowest`` to ``highest`` in ``unit``, both ends included.

    ``unit`` is None where any will do, as long as the reading or the first such input has the same kind of unit.
    A ``fixed`` input is a datum that is known beforehand, such as a nominal speed, and is not measured.
    """

    name: str
    what: str
    unit: str | None
    lowest: float
    highest: float
    fixed: bool = False
    choices: tuple[Choice, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Result:
    """What a formula comes to; a result with ``classes`` is one of their numbers.

    ``unit`` is None where it is the unit of the inputs whose unit is None.
    """

    what: str
    unit: str | None
    lowest: float
    highest: float
    classes: tuple[Choice, ...] = ()


@dataclass(frozen=True)
class Requirement:
    """A condition that the inputs must meet together, and the words for it."""

    condition: str
    words: str


@dataclass(frozen=True, kw_only=True)
class TableUse:
    """The table that the author gives: its x has the unit of the input ``x_like``, its y that of ``y_like``."""

    x: str
    x_like: str
    y: str
    y_like: str

    @property
    def what(self) -> str:
        """What the table holds, in words."""
        return f"{self.y} over {self.x.lower()}"


@dataclass(frozen=True, kw_only=True)
class Formula:
    """A named formula. ``expression`` is the definition, ``in_words`` tells it to people."""

    name: str
    title: str
    inputs: tuple[Input, ...]
    result: Result
    expression: str
    in_words: str
    source: Source
    not_for: tuple[str, ...]
    requires: tuple[Requirement, ...] = ()
    table: TableUse | None = None

    @cached_property
    def tree(self) -> Tree:
        """The expression, parsed; raises ExpressionError if it is outside the language."""
        return parse(self.expression, self.variables, (TABLE,) if self.table else ())

    @cached_property
    def conditions(self) -> tuple[Tree, ...]:
        """The conditions of ``requires``, parsed; raises ExpressionError if one is outside the language."""
        return tuple(parse_condition(one.condition, self.variables) for one in self.requires)

    @property
    def variables(self) -> tuple[str, ...]:
        """The inputs' names as the expression writes them."""
        return tuple(variable(one.name) for one in self.inputs)

    def input(self, name: str) -> Input:
        """The input of a name; raises KeyError if there is none."""
        return {one.name: one for one in self.inputs}[name]

    def of_free_unit(self) -> Iterator[Input]:
        """The inputs that may have any unit, as long as it is of one kind."""
        return (one for one in self.inputs if one.unit is None)


def variable(name: str) -> str:
    """How an expression writes the name of an input: with underscores, as a hyphen would be a minus."""
    return name.replace("-", "_")
