"""Editing YAML in place: only the value changes, comments and layout stay."""

from __future__ import annotations

import difflib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kbgen.source.edit import Edit, apply, quoted, value_of, written_span
from kbgen.source.read import read_text
from kbgen.source.tree import Mapping, Node, Scalar
from tests.check.knowledge_base import EXAMPLE, SLIPS
from tests.source.test_read import scalars

TEXT = """# Head
a: one  # first
b:
  - two # second
  - three

# Before c
c: {d: e}
"""


def _value(text: str, key: str) -> Node:
    root = read_text("a.yaml", text).value
    assert root is not None
    value = value_of(root, key)
    assert value is not None
    return value


@pytest.mark.parametrize(
    ("key", "new", "changed"),
    [
        ("a", "uno", {"a: one  # first": "a: uno  # first"}),
        ("c", "{d: f}", {"c: {d: e}": "c: {d: f}"}),
    ],
)
def test_an_edit_changes_only_its_value(key: str, new: str, changed: dict[str, str]) -> None:
    expected = [changed.get(line, line) for line in TEXT.splitlines()]
    assert apply(TEXT, [Edit(_value(TEXT, key).at, new)]).splitlines() == expected


def test_a_block_ends_with_its_last_value_and_leaves_the_comment_of_the_next_key() -> None:
    at = written_span(_value(TEXT, "b"))
    assert (at.line, at.column, at.end_line, at.end_column) == (3, 2, 4, 9)
    assert apply(TEXT, [Edit(at, "none")]).endswith("b:\n  none\n\n# Before c\nc: {d: e}\n")


def test_several_edits_do_not_disturb_each_other() -> None:
    edits = [Edit(_value(TEXT, "a").at, "a much longer value"), Edit(_value(TEXT, "c").at, "x")]
    assert apply(TEXT, edits) == apply(TEXT, reversed(edits))
    assert apply(TEXT, edits) == TEXT.replace("one", "a much longer value").replace("{d: e}", "x")


def test_a_file_that_is_no_mapping_has_no_values() -> None:
    root = read_text("a.yaml", "[a]").value
    assert root is not None and value_of(root, "a") is None


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_any_scalar_of_the_example_can_be_replaced_and_nothing_else_moves(data: st.DataObject) -> None:
    text = (EXAMPLE / SLIPS).read_text(encoding="utf-8")
    root = read_text("a.yaml", text).value
    assert isinstance(root, Mapping)
    chosen = data.draw(st.sampled_from([one for one in scalars(root) if one.at.line == one.at.end_line]))
    edited = apply(text, [Edit(chosen.at, "REPLACED")])
    lines = [line for line in difflib.ndiff(text.splitlines(), edited.splitlines()) if line[0] in "+-"]
    assert len(lines) == 2
    again = read_text("a.yaml", edited).value
    assert again is not None
    before, after = [one.text for one in scalars(root)], [one.text for one in scalars(again)]
    assert [new for old, new in zip(before, after, strict=True) if old != new] == ["REPLACED"]


@settings(max_examples=100, deadline=None)
@given(
    st.text(
        st.characters(exclude_categories=["Cs", "Cc", "Cn"], exclude_characters="\ufeff\ufffe\uffff\u2028\u2029"),
        max_size=30,
    )
)
def test_quoted_text_reads_back_as_it_was(text: str) -> None:
    value = _value(f"a: {quoted(text)}\n", "a")
    assert isinstance(value, Scalar) and value.text == text and value.quoted
