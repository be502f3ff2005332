"""Change values in the text of a YAML file in place, so that comments and layout stay as they are."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from kbgen.place import Span
from kbgen.source.tree import Mapping, Node, Scalar, Sequence


@dataclass(frozen=True)
class Edit:
    """Put ``text`` in the place of what stands at a span."""

    at: Span
    text: str


def apply(text: str, edits: Iterable[Edit]) -> str:
    """Carry out edits, from the last to the first; they must not overlap."""
    lines = text.splitlines(keepends=True)
    for edit in sorted(edits, key=lambda one: one.at, reverse=True):
        at = edit.at
        head = lines[at.line][: at.column]
        tail = lines[at.end_line][at.end_column :]
        lines[at.line : at.end_line + 1] = (head + edit.text + tail).splitlines(keepends=True)
    return "".join(lines)


def written_span(node: Node) -> Span:
    """Where a value is really written. The parser ends a block at the next key; the last value in it tells better."""
    last = _last(node)
    return node.at._replace(end_line=last.end_line, end_column=last.end_column)


def _last(node: Node) -> Span:
    if isinstance(node, Scalar) or node.at.end_column != 0:
        return node.at
    children: list[Node] = list(node.items) if isinstance(node, Sequence) else [value for _, value in node.entries]
    return _last(children[-1]) if children else node.at


def value_of(root: Node, key: str) -> Node | None:
    """The value under a top key of a file."""
    return root.get(key) if isinstance(root, Mapping) else None


def quoted(text: str) -> str:
    """Text as a YAML value in double quotes."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'
