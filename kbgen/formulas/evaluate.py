"""A tree and the numbers that its names stand for -> the number that it comes to."""

from __future__ import annotations

import math
import operator
from bisect import bisect_right
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import TypeAlias, cast

from kbgen.formulas.errors import OutOfRange, Undefined
from kbgen.formulas.tree import HALVINGS, Tree

Table: TypeAlias = Sequence[tuple[float, float]]

_COMPARE: Mapping[str, Callable[[float, float], bool]] = {
    "<": operator.lt, "<=": operator.le, ">": operator.gt, ">=": operator.ge, "==": operator.eq,
}  # fmt: skip

_PLAIN: Mapping[str, Callable[..., float]] = {
    "+": operator.add,
    "-": operator.sub,
    "*": operator.mul,
    "/": operator.truediv,
    "negative": operator.neg,
    "min": min,
    "max": max,
    "abs": abs,
    "floor": math.floor,
    "sqrt": math.sqrt,
    "ln": math.log,
    "exp": math.exp,
}


def evaluate(tree: Tree, names: Mapping[str, float], tables: Mapping[str, Table] | None = None) -> float:
    """Work a tree out.

    Raises Undefined where a step has no finite value, and OutOfRange where a table is left.
    """
    return _Working(tables or {}).number(tree, names)


def holds(tree: Tree, names: Mapping[str, float]) -> bool:
    """Tell whether a condition holds; raises Undefined where a step of it has no finite value."""
    return _Working({}).condition(tree, names)


class _Working:
    """Works trees out with the tables at hand."""

    def __init__(self, tables: Mapping[str, Table]) -> None:
        self._tables = tables
        self._special: Mapping[str, Callable[[list[Tree], Mapping[str, float]], float]] = {
            "let": self._let,
            "if": self._if,
            "power": self._power,
            "polynomial": self._polynomial,
            "interpolate": self._interpolate,
            "root": self._root,
        }

    def number(self, tree: Tree, names: Mapping[str, float]) -> float:
        if isinstance(tree, float):
            return tree
        word, *parts = cast("list[Tree]", tree)
        if word == "name":
            return names[cast(str, parts[0])]
        special = self._special.get(cast(str, word))
        return special(parts, names) if special else self._plain(cast(str, word), parts, names)

    def condition(self, tree: Tree, names: Mapping[str, float]) -> bool:
        word, *parts = cast("list[Tree]", tree)
        if word == "and":
            return all(self.condition(part, names) for part in parts)
        if word == "or":
            return any(self.condition(part, names) for part in parts)
        if word == "not":
            return not self.condition(parts[0], names)
        return _COMPARE[cast(str, word)](*(self.number(part, names) for part in parts))

    def _plain(self, word: str, parts: list[Tree], names: Mapping[str, float]) -> float:
        values = [self.number(part, names) for part in parts]
        try:
            return _finite(float(_PLAIN[word](*values)), word)
        except (ArithmeticError, ValueError):
            raise Undefined(f"{word} of {_listed(values)} has no value") from None

    def _let(self, parts: list[Tree], names: Mapping[str, float]) -> float:
        name, value, rest = parts
        return self.number(rest, {**names, cast(str, name): self.number(value, names)})

    def _if(self, parts: list[Tree], names: Mapping[str, float]) -> float:
        condition, then, otherwise = parts
        return self.number(then if self.condition(condition, names) else otherwise, names)

    def _power(self, parts: list[Tree], names: Mapping[str, float]) -> float:
        base = product = self.number(parts[0], names)
        for _ in range(int(cast(float, parts[1])) - 1):
            product = _finite(product * base, "power")
        return product

    def _polynomial(self, parts: list[Tree], names: Mapping[str, float]) -> float:
        value = self.number(parts[0], names)
        *others, total = cast("list[float]", parts[1])
        for coefficient in reversed(others):
            total = _finite(total * value + coefficient, "polynomial")
        return total

    def _interpolate(self, parts: list[Tree], names: Mapping[str, float]) -> float:
        table = self._tables[cast(str, parts[0])]
        value = self.number(parts[1], names)
        if not table[0][0] <= value <= table[-1][0]:
            raise OutOfRange(cast(str, parts[0]), value, table[0][0], table[-1][0])
        row = bisect_right(table, value, key=lambda one: one[0]) - 1
        x0, y0 = table[row]
        if value == x0:
            return y0
        x1, y1 = table[row + 1]
        return _finite(y0 + (y1 - y0) * ((value - x0) / (x1 - x0)), "interpolate")

    def _root(self, parts: list[Tree], names: Mapping[str, float]) -> float:
        name, zero = cast(str, parts[0]), parts[3]
        low, high = (self.number(end, names) for end in parts[1:3])

        def is_positive(value: float) -> bool:
            return self.number(zero, {**names, name: value}) >= 0

        above = is_positive(high)
        if is_positive(low) == above:
            raise Undefined(f"no {name} between {low:.7g} and {high:.7g} fits these values")
        for _ in range(HALVINGS):
            middle = 0.5 * (low + high)
            if is_positive(middle) == above:
                high = middle
            else:
                low = middle
        return 0.5 * (low + high)


def _finite(number: float, word: str) -> float:
    if not math.isfinite(number):
        raise Undefined(f"{word} leads to a number that is too large")
    return number


def _listed(values: Sequence[float]) -> str:
    return " and ".join(f"{value:.7g}" for value in values)


def names_in(tree: Tree) -> Iterator[str]:
    """The names that a tree looks up, each as often as it stands there."""
    if isinstance(tree, list):
        if tree[0] == "name":
            yield cast(str, tree[1])
        for part in tree[1:]:
            yield from names_in(part)
