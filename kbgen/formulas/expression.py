"""The text of a formula -> its tree: Python's grammar, of which only arithmetic is let through.

A formula is a few assignments and a last expression. Nothing is ever executed: the text is parsed, and whatever is not
named here is refused.
"""

from __future__ import annotations

import ast
import math
from collections.abc import Callable, Iterable

from kbgen.formulas.errors import ExpressionError
from kbgen.formulas.tree import HIGHEST_POWER, OF_ONE, OF_SEVERAL, Tree

LONGEST = 4000
DEEPEST = 60
CONSTANTS = {"pi": math.pi}

_OPERATORS: dict[type[ast.operator], str] = {ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/"}
_COMPARISONS: dict[type[ast.cmpop], str] = {
    ast.Lt: "<", ast.LtE: "<=", ast.Gt: ">", ast.GtE: ">=", ast.Eq: "==",
}  # fmt: skip


def parse(text: str, names: Iterable[str], tables: Iterable[str] = ()) -> Tree:
    """Read a formula over the given names and tables; raise ExpressionError for anything outside the language."""
    statements = _statements(text)
    reader = _Reader(names, tables)
    steps = [reader.assignment(one) for one in statements[:-1]]
    last = statements[-1]
    if not isinstance(last, ast.Expr):
        raise ExpressionError("the last line must be an expression")
    tree = reader.number(last.value)
    for name, value in reversed(steps):
        tree = ["let", name, value, tree]
    return tree


def parse_condition(text: str, names: Iterable[str]) -> Tree:
    """Read one condition over the given names; raise ExpressionError for anything outside the language."""
    statements = _statements(text)
    if len(statements) != 1 or not isinstance(statements[0], ast.Expr):
        raise ExpressionError("a condition is one expression")
    return _Reader(names, ()).condition(statements[0].value)


def _statements(text: str) -> list[ast.stmt]:
    if len(text) > LONGEST:
        raise ExpressionError(f"a formula has at most {LONGEST} characters")
    try:
        statements = ast.parse(text).body
    except (SyntaxError, ValueError, RecursionError, MemoryError) as error:
        raise ExpressionError(f"this is no expression: {error}") from None
    if not statements:
        raise ExpressionError("nothing is written here")
    level: list[ast.AST] = [*statements]
    for _ in range(DEEPEST):
        level = [child for node in level for child in ast.iter_child_nodes(node)]
    if level:
        raise ExpressionError(f"a formula is nested at most {DEEPEST} deep")
    return statements


class _Reader:
    """Reads nodes of Python's syntax tree, and knows which names have a meaning so far."""

    def __init__(self, names: Iterable[str], tables: Iterable[str]) -> None:
        self._known = set(names)
        self._tables = set(tables)
        self._calls: dict[str, Callable[[ast.Call], Tree]] = {
            **dict.fromkeys(OF_ONE, self._of_one),
            **dict.fromkeys(OF_SEVERAL, self._of_several),
            "polynomial": self._polynomial,
            "interpolate": self._interpolate,
            "root": self._root,
        }

    def assignment(self, node: ast.stmt) -> tuple[str, Tree]:
        if not isinstance(node, ast.Assign) or len(node.targets) != 1 or not isinstance(node.targets[0], ast.Name):
            raise ExpressionError("every line but the last must read: name = expression")
        value = self.number(node.value)
        return self._new_name(node.targets[0]), value

    def number(self, node: ast.expr) -> Tree:
        if isinstance(node, ast.Constant):
            return _constant(node)
        if isinstance(node, ast.Name):
            return self._name(node)
        if isinstance(node, ast.UnaryOp):
            return self._signed(node)
        if isinstance(node, ast.BinOp):
            return self._operation(node)
        if isinstance(node, ast.IfExp):
            return ["if", self.condition(node.test), self.number(node.body), self.number(node.orelse)]
        if isinstance(node, ast.Call):
            return self._call(node)
        raise ExpressionError(f"{_shown(node)} is not allowed where a number belongs")

    def condition(self, node: ast.expr) -> Tree:
        if isinstance(node, ast.BoolOp):
            word = "and" if isinstance(node.op, ast.And) else "or"
            return [word, *(self.condition(value) for value in node.values)]
        if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
            return ["not", self.condition(node.operand)]
        if isinstance(node, ast.Compare) and len(node.ops) == 1 and type(node.ops[0]) in _COMPARISONS:
            return [_COMPARISONS[type(node.ops[0])], self.number(node.left), self.number(node.comparators[0])]
        raise ExpressionError(f"{_shown(node)} is not allowed where a condition belongs")

    def _new_name(self, node: ast.expr) -> str:
        if not isinstance(node, ast.Name):
            raise ExpressionError(f"{_shown(node)} is no name")
        if node.id in self._known | self._tables | CONSTANTS.keys() | self._calls.keys():
            raise ExpressionError(f"“{node.id}” has a meaning already")
        self._known.add(node.id)
        return node.id

    def _name(self, node: ast.Name) -> Tree:
        if node.id in self._known:
            return ["name", node.id]
        if node.id in CONSTANTS:
            return CONSTANTS[node.id]
        raise ExpressionError(f"“{node.id}” is not known here")

    def _signed(self, node: ast.UnaryOp) -> Tree:
        if not isinstance(node.op, ast.USub):
            raise ExpressionError(f"{_shown(node)} is not allowed where a number belongs")
        value = self.number(node.operand)
        return -value if isinstance(value, float) else ["negative", value]

    def _operation(self, node: ast.BinOp) -> Tree:
        left, right = self.number(node.left), self.number(node.right)
        if type(node.op) in _OPERATORS:
            return [_OPERATORS[type(node.op)], left, right]
        if isinstance(node.op, ast.Pow):
            return ["power", left, _exponent(right)]
        raise ExpressionError(f"{_shown(node)} is not allowed where a number belongs")

    def _call(self, node: ast.Call) -> Tree:
        name = node.func.id if isinstance(node.func, ast.Name) else ""
        if name not in self._calls or node.keywords:
            raise ExpressionError(f"{_shown(node)} calls what no formula may call")
        return self._calls[name](node)

    def _of_one(self, node: ast.Call) -> Tree:
        (value,) = _arguments(node, 1)
        return [ast.unparse(node.func), self.number(value)]

    def _of_several(self, node: ast.Call) -> Tree:
        if len(node.args) < 2:
            raise ExpressionError(f"{_shown(node)} needs two numbers or more")
        return [ast.unparse(node.func), *(self.number(value) for value in node.args)]

    def _polynomial(self, node: ast.Call) -> Tree:
        value, coefficients = _arguments(node, 2)
        if not isinstance(coefficients, ast.List) or not coefficients.elts:
            raise ExpressionError("polynomial takes a number and a list of coefficients")
        numbers = [self.number(one) for one in coefficients.elts]
        if not all(isinstance(one, float) for one in numbers):
            raise ExpressionError("the coefficients of a polynomial are plain numbers")
        return ["polynomial", self.number(value), numbers]

    def _interpolate(self, node: ast.Call) -> Tree:
        table, value = _arguments(node, 2)
        if not isinstance(table, ast.Name) or table.id not in self._tables:
            raise ExpressionError(f"{_shown(table)} is no table of this formula")
        return ["interpolate", table.id, self.number(value)]

    def _root(self, node: ast.Call) -> Tree:
        name, low, high, zero = _arguments(node, 4)
        ends = [self.number(low), self.number(high)]
        unknown = self._new_name(name)
        expression = self.number(zero)
        self._known.discard(unknown)
        return ["root", unknown, *ends, expression]


def _arguments(node: ast.Call, count: int) -> list[ast.expr]:
    if len(node.args) != count:
        raise ExpressionError(f"{_shown(node)} needs {count} values")
    return node.args


def _constant(node: ast.Constant) -> float:
    value = node.value
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise ExpressionError(f"{_shown(node)} is no number")
    try:
        number = float(value)
    except OverflowError:
        number = math.inf
    if not math.isfinite(number):
        raise ExpressionError("a number of ordinary size belongs here")
    return number


def _exponent(value: Tree) -> float:
    if not isinstance(value, float) or value not in range(2, HIGHEST_POWER + 1):
        raise ExpressionError(f"an exponent is a whole number from 2 to {HIGHEST_POWER}")
    return value


def _shown(node: ast.expr) -> str:
    text = ast.unparse(node)
    return f"“{text if len(text) < 40 else text[:40] + '…'}”"
