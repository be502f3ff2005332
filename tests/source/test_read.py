"""Reading YAML safely: what is refused, what stays text, and that every value knows its place."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from kbgen.source.read import MAX_BYTES, MAX_DEPTH, read_bytes, read_text
from kbgen.source.tree import Mapping, Node, Scalar, Sequence


def _codes(text: str) -> list[str]:
    return [one.rule.code for one in read_text("a.yaml", text).found]


def scalars(node: Node) -> Iterator[Scalar]:
    if isinstance(node, Scalar):
        yield node
    elif isinstance(node, Sequence):
        for item in node.items:
            yield from scalars(item)
    else:
        for key, value in node.entries:
            yield key
            yield from scalars(value)


@pytest.mark.parametrize(
    "text",
    [
        "a: !!python/name:os.system x",
        "a: !!python/object/apply:os.system [x]",
        "a: !own x",
        "a: !!str 5",
        "!!map {a: b}",
        "a: !!set [b]",
        "[" * (MAX_DEPTH + 1) + "]" * (MAX_DEPTH + 1),
        "a: b\n---\na: c\n",
        "a: *b",
        "a: &a [*a]",
        "a: \0",
        "a: \x07",
        "a: \ufffe",
        "- x\n" * 50_001,
    ],
    ids=lambda text: text[:30],
)
def test_is_refused_with_one_finding(text: str) -> None:
    outcome = read_text("a.yaml", text)
    assert outcome.value is None
    assert [one.rule.code for one in outcome.found] == ["KB101"]


@pytest.mark.parametrize(
    "text", ["[" * 100_000, "[" * 100_000 + "]" * 100_000, "{a: " * 100_000, "- " * 100_000 + "a"], ids=range(4)
)
def test_the_deepest_nesting_is_one_finding(text: str) -> None:
    outcome = read_text("a.yaml", text)
    assert outcome.value is None
    assert [one.rule.code for one in outcome.found] in (["KB101"], ["KB102"])


def test_aliases_cannot_blow_up_the_tree() -> None:
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 10)}]" for n in range(1, 12)]
    assert _codes("\n".join(lines)) == ["KB101"]


def test_a_plain_alias_repeats_its_value() -> None:
    root = read_text("a.yaml", "a: &x [one, two]\nb: *x\n").value
    assert isinstance(root, Mapping)
    assert root.get("b") == root.get("a")


def test_merge_keys_are_ordinary_keys() -> None:
    root = read_text("a.yaml", "a: &x {b: c}\nd: {<<: *x}\n").value
    assert isinstance(root, Mapping)
    inner = root.get("d")
    assert isinstance(inner, Mapping) and inner.get("b") is None and inner.get("<<") is not None


def test_the_greatest_depth_is_read() -> None:
    assert read_text("a.yaml", "[" * MAX_DEPTH + "]" * MAX_DEPTH).value is not None


@pytest.mark.parametrize("text", ["a: 'b", "a: [b", "a: b: c", "\ta: b", "a\nb: c", "? [a]\n: b", "{a: b"])
def test_broken_yaml_is_one_finding_inside_the_file(text: str) -> None:
    outcome = read_text("a.yaml", text)
    assert outcome.value is None
    (finding,) = outcome.found
    assert finding.rule.code == "KB102"
    assert 0 <= finding.at.line <= text.count("\n")


def test_duplicate_keys_are_all_reported_and_the_first_is_kept() -> None:
    outcome = read_text("a.yaml", "a: 1\nb: {c: 2, c: 3}\na: 4\n")
    assert [(one.rule.code, one.at.line, one.at.column) for one in outcome.found] == [("KB103", 1, 10), ("KB103", 2, 0)]
    assert [one.labels[0].at.line for one in outcome.found] == [1, 0]
    assert isinstance(outcome.value, Mapping)
    kept = outcome.value.get("a")
    assert isinstance(kept, Scalar) and kept.text == "1"


@pytest.mark.parametrize(
    "word", ["No", "yes", "off", "1:30", "0x10", "010", "1e3", "null", "2026-09-14", "~x", "1_000", ".5"]
)
def test_words_stay_as_the_author_wrote_them(word: str) -> None:
    root = read_text("a.yaml", f"a: {word}\n").value
    assert isinstance(root, Mapping)
    value = root.get("a")
    assert isinstance(value, Scalar) and value.text == word and not value.quoted and not value.is_blank


@pytest.mark.parametrize(("text", "blank"), [("a:", True), ("a: ~", True), ("a: ''", False), ('a: "~"', False)])
def test_nothing_written_is_told_from_an_empty_text(text: str, blank: bool) -> None:
    root = read_text("a.yaml", text).value
    assert isinstance(root, Mapping)
    value = root.get("a")
    assert isinstance(value, Scalar) and value.is_blank is blank


def test_a_byte_order_mark_does_not_shift_places() -> None:
    outcome = read_bytes("a.yaml", "\ufeffa: b\n".encode())
    assert isinstance(outcome.value, Mapping)
    assert outcome.value.entries[0][0].at == ("a.yaml", 0, 0, 0, 1)


def test_bytes_that_are_not_utf8_are_named_by_their_line() -> None:
    outcome = read_bytes("a.yaml", b"a: b\nc: d\ne: \xfc\n")
    (finding,) = outcome.found
    assert (outcome.value, finding.rule.code, finding.at.line) == (None, "KB101", 2)


def test_utf16_is_refused() -> None:
    assert read_bytes("a.yaml", "a: b".encode("utf-16")).value is None


def test_a_very_large_file_is_refused_unread() -> None:
    assert read_bytes("a.yaml", b"#" * MAX_BYTES).value is not None
    assert read_bytes("a.yaml", b"#" * (MAX_BYTES + 1)).found[0].rule.code == "KB101"


@pytest.mark.parametrize("text", ["", "# nothing\n", "---\n", "\n\n"])
def test_an_empty_file_is_a_blank_value(text: str) -> None:
    root = read_text("a.yaml", text).value
    assert isinstance(root, Scalar) and root.is_blank


WORDS = st.text("abcxyzäß漢€😀 ", min_size=1, max_size=12).map(str.strip).filter(bool)
TREES = st.recursive(
    WORDS, lambda inner: st.lists(inner, max_size=4) | st.dictionaries(WORDS, inner, max_size=4), max_leaves=15
)


@settings(max_examples=100, deadline=None)
@given(TREES, st.booleans(), st.integers(2, 6))
def test_plain_scalars_stand_where_their_span_says(tree: object, flow: bool, indent: int) -> None:
    text = yaml.safe_dump(tree, allow_unicode=True, default_flow_style=flow, indent=indent, width=10_000)
    root = read_text("a.yaml", text).value
    assert root is not None
    lines = text.split("\n")
    for scalar in scalars(root):
        if not scalar.quoted:
            assert scalar.at.line == scalar.at.end_line
            assert lines[scalar.at.line][scalar.at.column : scalar.at.end_column] == scalar.text


def plain(node: Node) -> object:
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Sequence):
        return [plain(item) for item in node.items]
    return {key.text: plain(value) for key, value in node.entries}


@settings(max_examples=100, deadline=None)
@given(TREES, st.booleans())
def test_the_tree_agrees_with_a_yaml_library_that_leaves_words_alone(tree: object, flow: bool) -> None:
    text = yaml.safe_dump(tree, allow_unicode=True, default_flow_style=flow)
    root = read_text("a.yaml", text).value
    assert root is not None
    assert plain(root) == yaml.load(text, yaml.BaseLoader)


NASTY = st.text("ab:-[]{}&*!|>'\"%@`#,? \n\t\0\x85\u2028\ufeff~<", max_size=60)


@settings(max_examples=300, deadline=None)
@given(
    st.binary(max_size=60)
    | NASTY.map(str.encode)
    | st.text(max_size=60).map(lambda text: text.encode("utf-8", "replace"))
)
def test_no_bytes_break_the_reader(data: bytes) -> None:
    outcome = read_bytes("a.yaml", data)
    assert outcome.value is not None or outcome.found
    for finding in outcome.found:
        assert finding.at.line >= 0 and finding.message and finding.help
