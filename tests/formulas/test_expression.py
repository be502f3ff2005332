"""The text of a formula becomes a tree of plain lists; everything outside the language is refused."""

from __future__ import annotations

import json
import math
import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kbgen.formulas.errors import ExpressionError, FormulaError
from kbgen.formulas.evaluate import evaluate, names_in
from kbgen.formulas.expression import LONGEST, parse, parse_condition
from kbgen.formulas.tree import Tree


@pytest.mark.parametrize(
    ("text", "tree"),
    [
        ("1", 1.0),
        ("-1", -1.0),
        ("pi", math.pi),
        ("a", ["name", "a"]),
        ("-a", ["negative", ["name", "a"]]),
        ("a + 2 * b", ["+", ["name", "a"], ["*", 2.0, ["name", "b"]]]),
        ("a - b - 1", ["-", ["-", ["name", "a"], ["name", "b"]], 1.0]),
        ("(a / b) ** 2", ["power", ["/", ["name", "a"], ["name", "b"]], 2.0]),
        ("max(a, b, 3)", ["max", ["name", "a"], ["name", "b"], 3.0]),
        ("sqrt(a)", ["sqrt", ["name", "a"]]),
        ("1 if a < b else 2", ["if", ["<", ["name", "a"], ["name", "b"]], 1.0, 2.0]),
        ("1 if not a == 1 and b > 2 else 2", [
            "if", ["and", ["not", ["==", ["name", "a"], 1.0]], [">", ["name", "b"], 2.0]], 1.0, 2.0,
        ]),
        ("m = a + b\nm / 2", ["let", "m", ["+", ["name", "a"], ["name", "b"]], ["/", ["name", "m"], 2.0]]),
        ("polynomial(a, [1, -2e-3])", ["polynomial", ["name", "a"], [1.0, -0.002]]),
        ("interpolate(table, a)", ["interpolate", "table", ["name", "a"]]),
        ("root(t, 0, b, t - a)", ["root", "t", 0.0, ["name", "b"], ["-", ["name", "t"], ["name", "a"]]]),
        ("# a remark\na", ["name", "a"]),
    ],
)  # fmt: skip
def test_text_becomes_a_tree(text: str, tree: Tree) -> None:
    assert parse(text, ["a", "b"], ["table"]) == tree


@pytest.mark.parametrize(
    "text",
    [
        "",
        "# only a remark",
        "a +",
        "a = 1",
        "a.real",
        "a.__class__",
        "().__class__.__bases__[0]",
        "__import__('os').system('true')",
        "open('x')",
        "eval('1')",
        "print(a)",
        "pow(a, 2)",
        "(lambda: 1)()",
        "lambda: 1",
        "[a, b]",
        "[x for x in (1, 2)]",
        "{a: b}",
        "a[0]",
        "'text'",
        "f'{a}'",
        "b'1'",
        "True",
        "None",
        "...",
        "1j",
        "1e999",
        "9" * 400,
        "unknown",
        "table",
        "min",
        "a ** 0.5",
        "a ** 10",
        "a ** 1",
        "a ** -2",
        "a ** b",
        "2 ** 2 ** 2 ** 2 ** 2",
        "9 ** 999999999",
        "a // b",
        "a % b",
        "a << 2",
        "a @ b",
        "a | b",
        "+a",
        "~a",
        "not a",
        "a < b",
        "a and b",
        "1 if a else 2",
        "1 if a < b < 3 else 2",
        "1 if a != b else 2",
        "1 if a is b else 2",
        "1 if a in b else 2",
        "min(a)",
        "max()",
        "min(*a)",
        "abs(a, b)",
        "abs(x=a)",
        "polynomial(a, [])",
        "polynomial(a, [b])",
        "polynomial(a, 1, 2)",
        "polynomial(a, [*b])",
        "interpolate(other, a)",
        "interpolate(a, a)",
        "interpolate(table)",
        "root(a, 0, 1, a)",
        "root(t + 1, 0, 1, a)",
        "root(t, 0, t, t)",
        "root(t, 0, 1, t) + t",
        "c = 1\nc = 2\nc",
        "a = 1\nb",
        "pi = 3\npi",
        "min = 3\nmin",
        "table = 3\ntable",
        "c = d = 1\nc",
        "c, d = 1\nc",
        "c += 1\nc",
        "c: float = 1\nc",
        "c\nc = 1\nc",
        "a\nb",
        "import os\na",
        "def f(): pass\na",
        "while True: pass\na",
        "(c := 1)",
        "del a\nb",
        "a; b",
        "a\0",
        "(" * 300 + "a" + ")" * 300,
        "-" * 3000 + "a",
        "a" + " + a" * LONGEST,
        "a" + " + a" * 900,
        "-" * 100 + "a",
    ],
)
def test_anything_else_is_refused(text: str) -> None:
    with pytest.raises(ExpressionError):
        parse(text, ["a", "b"], ["table"])


@pytest.mark.parametrize("text", ["a", "1", "a + b", "a < b\na < b", "c = 1\nc < a", "a < unknown", "a < (b < 1)"])
def test_a_condition_is_one_comparison_or_several(text: str) -> None:
    with pytest.raises(ExpressionError):
        parse_condition(text, ["a", "b"])


@given(st.text(max_size=60))
def test_no_text_raises_anything_but_a_refusal(text: str) -> None:
    try:
        parse(text, ["a"])
    except ExpressionError:
        return


PIECES = ["a", "b", "1", "(", ")", "+", "-", "*", "/", "**", "2", "min", "max", ",", " if ", " else ", "<", "root", "[", "]", "t", "\n", "="]  # fmt: skip # noqa: E501


@settings(max_examples=300)
@given(st.lists(st.sampled_from(PIECES), max_size=14).map("".join))
def test_what_is_let_through_can_be_worked_out_or_says_why_not(text: str) -> None:
    try:
        tree = parse(text, ["a", "b"])
    except ExpressionError:
        return
    assert set(names_in(tree)) <= {"a", "b", "t"}
    try:
        assert math.isfinite(evaluate(tree, {"a": 2.0, "b": -3.0}))
    except FormulaError as error:
        assert str(error)


def _sum(draw: random.Random, depth: int) -> str:
    if not depth:
        return draw.choice(["a", "b", "1.5", "7", "-2"])
    left, right = _sum(draw, depth - 1), _sum(draw, depth - 1)
    return draw.choice([f"({left} {draw.choice('+-*/')} {right})", f"max({left}, {right})", f"abs({left})",
                        f"({left} if {left} < {right} else {right})"])  # fmt: skip


@settings(max_examples=200)
@given(st.randoms(use_true_random=False), st.floats(-1e6, 1e6), st.floats(-1e6, 1e6))
def test_numbers_are_those_of_the_language_that_the_text_is_borrowed_from(
    draw: random.Random, a: float, b: float
) -> None:
    text = _sum(draw, 4)
    try:
        expected = eval(text, {"__builtins__": {"max": max, "abs": abs}}, {"a": a, "b": b})
    except ZeroDivisionError:
        with pytest.raises(FormulaError):
            evaluate(parse(text, ["a", "b"]), {"a": a, "b": b})
        return
    try:
        found = evaluate(parse(text, ["a", "b"]), {"a": a, "b": b})
    except FormulaError:
        return
    assert found == expected


@settings(max_examples=200)
@given(st.randoms(use_true_random=False), st.floats(-1e6, 1e6), st.floats(-1e6, 1e6))
def test_a_tree_that_went_through_json_comes_to_the_same_bits(draw: random.Random, a: float, b: float) -> None:
    tree = parse(f"c = {_sum(draw, 3)}\npolynomial(c, [1, 0.1, 1e-3]) + {_sum(draw, 2)}", ["a", "b"])
    again = json.loads(json.dumps(tree, allow_nan=False))
    assert again == tree
    try:
        found = evaluate(tree, {"a": a, "b": b})
    except FormulaError as error:
        with pytest.raises(type(error)):
            evaluate(again, {"a": a, "b": b})
        return
    assert evaluate(again, {"a": a, "b": b}).hex() == found.hex()
