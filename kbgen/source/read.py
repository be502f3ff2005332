"""Read one YAML file safely; the only module that imports YAML.

The parser's events are folded into a tree without recursion, so that depth, size and aliases are bounded before
anything is built, and no tag is ever followed.
"""

from __future__ import annotations

from functools import partial
from typing import Any

import yaml

from kbgen.diagnostics import Diagnostic, Label, Outcome
from kbgen.place import Span
from kbgen.source.rules import BROKEN_YAML, DUPLICATE_KEY, UNREADABLE_FILE
from kbgen.source.tree import Mapping, Node, Scalar, Sequence

MAX_BYTES = 1_000_000
MAX_DEPTH = 40
MAX_NODES = 50_000

_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_span = partial(tuple.__new__, Span)
_scalar = partial(tuple.__new__, Scalar)


class _RefusedError(Exception):
    """Stops the reading of a file, with the finding that says why."""

    def __init__(self, finding: Diagnostic) -> None:
        super().__init__(finding.message)
        self.finding = finding


def read_bytes(path: str, data: bytes) -> Outcome[Node]:
    """Read the bytes of a file; ``path`` is the name that findings show."""
    return _read_bytes(_Builder(path), data)


def read_configuration(path: str, data: bytes) -> Outcome[Node]:
    """Read the bytes of a configuration of MkDocs. Tags are passed over: what they stand for is MkDocs' matter."""
    return _read_bytes(_Lenient(path), data)


def read_text(path: str, text: str) -> Outcome[Node]:
    """Read YAML text into a tree, with every finding that concerns its layout."""
    return _read_text(_Builder(path), text)


def _read_bytes(builder: _Builder, data: bytes) -> Outcome[Node]:
    path = builder.path
    start = Span(path, 0, 0, 0, 1)
    if len(data) > MAX_BYTES:
        return _refuse(start, f"The file has {len(data):,} bytes; at most {MAX_BYTES:,} are read.")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start)
        return _refuse(Span(path, line, 0, line, 1), "The file is not UTF-8 text (a byte on this line does not fit).")
    return _read_text(builder, text)


def _read_text(builder: _Builder, text: str) -> Outcome[Node]:
    path = builder.path
    try:
        root = builder.build(_Loader(text))
    except _RefusedError as refused:
        return Outcome(None, (refused.finding,))
    except yaml.MarkedYAMLError as error:
        return Outcome(None, (_broken(path, text, error),))
    except yaml.YAMLError as error:
        return _refuse(Span(path, 0, 0, 0, 1), f"The file holds characters that YAML forbids: {error}.")
    return Outcome(root, tuple(builder.found))


def _refuse(at: Span, message: str) -> Outcome[Node]:
    return Outcome(None, (Diagnostic(UNREADABLE_FILE, at, message, UNREADABLE_FILE.remedy),))


def _broken(path: str, text: str, error: yaml.MarkedYAMLError) -> Diagnostic:
    mark = error.problem_mark or error.context_mark
    line, column = (mark.line, mark.column) if mark else (0, 0)
    last = max(text.count("\n"), 0)
    line = min(line, last)
    problem = f"{error.problem or error}".strip()
    labels: tuple[Label, ...] = ()
    if error.context_mark and error.context and error.context_mark.line != line:
        start = error.context_mark
        began = Span(path, start.line, start.column, start.line, start.column + 1)
        labels = (Label(began, f"it began {error.context}"),)
    return Diagnostic(
        BROKEN_YAML,
        Span(path, line, column, line, column + 1),
        f"The YAML breaks off here: {problem}.",
        BROKEN_YAML.remedy,
        labels,
    )


class _Open:
    """A list or mapping whose end has not been read yet."""

    __slots__ = ("anchor", "children", "is_mapping", "key", "keys", "start")

    def __init__(self, start: Any, is_mapping: bool, anchor: str | None) -> None:
        self.start = start
        self.is_mapping = is_mapping
        self.anchor = anchor
        self.children: list[Any] = []
        self.key: Scalar | None = None
        self.keys: dict[str, Scalar] = {}


class _Builder:
    """Folds parser events into nodes; keeps findings that do not stop the reading."""

    def __init__(self, path: str) -> None:
        self.path = path
        self.found: list[Diagnostic] = []
        self.anchors: dict[str, tuple[Node, int]] = {}
        self.nodes = 0

    def build(self, loader: Any) -> Node:
        stack: list[_Open] = []
        root: Node | None = None
        step, attach = self._step, self._attach
        for event in iter(loader.get_event, None):
            node = step(event, stack)
            if node is None:
                continue
            if stack:
                attach(stack[-1], node)
            elif root is None:
                root = node
            else:
                raise self._stop(event, "The file holds more than one YAML document.")
        return root if root is not None else Scalar("", Span(self.path, 0, 0, 0, 1))

    def _step(self, event: Any, stack: list[_Open]) -> Node | None:
        kind = type(event)
        if kind is yaml.ScalarEvent:
            return self._scalar(event)
        if kind is yaml.MappingStartEvent or kind is yaml.SequenceStartEvent:
            self._refuse_tag(event)
            stack.append(_Open(event.start_mark, kind is yaml.MappingStartEvent, event.anchor))
            if len(stack) > MAX_DEPTH:
                raise self._stop(event, f"The file is nested deeper than {MAX_DEPTH} levels.")
            return None
        if kind is yaml.MappingEndEvent or kind is yaml.SequenceEndEvent:
            return self._close(stack.pop(), event)
        if kind is yaml.AliasEvent:
            return self._alias(event)
        return None

    def _span(self, start: Any, end: Any) -> Span:
        return _span((self.path, start.line, start.column, end.line, end.column))

    def _stop(self, event: Any, message: str) -> _RefusedError:
        at = self._span(event.start_mark, event.end_mark)
        return _RefusedError(Diagnostic(UNREADABLE_FILE, at, message, UNREADABLE_FILE.remedy))

    def _refuse_tag(self, event: Any) -> None:
        if event.tag is not None:
            raise self._stop(event, f"The value carries the YAML tag “{event.tag}”; tags are not read.")

    def _count(self, event: Any, more: int = 1) -> None:
        self.nodes += more
        if self.nodes > MAX_NODES:
            raise self._stop(event, f"The file holds more than {MAX_NODES:,} values (aliases counted in full).")

    def _scalar(self, event: Any) -> Scalar:
        if event.tag is not None:
            self._refuse_tag(event)
        self._count(event)
        scalar = _scalar((event.value, self._span(event.start_mark, event.end_mark), event.style not in (None, "")))
        if event.anchor:
            self.anchors[event.anchor] = (scalar, 1)
        return scalar

    def _alias(self, event: Any) -> Node:
        known = self.anchors.get(event.anchor)
        if known is None:
            message = f"The alias “*{event.anchor}” stands before the end of what it repeats, or repeats nothing."
            raise self._stop(event, message)
        node, size = known
        self._count(event, size)
        return node

    def _close(self, done: _Open, event: Any) -> Node:
        before = self.nodes
        self._count(event)
        at = self._span(done.start, event.end_mark)
        node: Node = Mapping(tuple(done.children), at) if done.is_mapping else Sequence(tuple(done.children), at)
        if done.anchor:
            self.anchors[done.anchor] = (node, _size(node, before))
        return node

    def _attach(self, parent: _Open, node: Node) -> None:
        if not parent.is_mapping:
            parent.children.append(node)
        elif parent.key is None:
            parent.key = self._key(node)
        else:
            self._add_entry(parent, parent.key, node)
            parent.key = None

    def _key(self, node: Node) -> Scalar:
        if isinstance(node, Scalar):
            return node
        raise _RefusedError(
            Diagnostic(BROKEN_YAML, node.at, "A key must be a word, not a list or a group of keys.", BROKEN_YAML.remedy)
        )

    def _add_entry(self, parent: _Open, key: Scalar, node: Node) -> None:
        earlier = parent.keys.setdefault(key.text, key)
        if earlier is key:
            parent.children.append((key, node))
            return
        message = f"The key “{key.text}” stands twice in the same group."
        label = Label(earlier.at, "it stands here already")
        self.found.append(Diagnostic(DUPLICATE_KEY, key.at, message, DUPLICATE_KEY.remedy, (label,)))


class _Lenient(_Builder):
    """Reads values with tags as if they had none."""

    def _refuse_tag(self, event: Any) -> None:
        """Pass the tag over."""


def _size(node: Node, bound: int) -> int:
    """Count the values in a node that an alias would repeat; never more than were read so far."""
    total, todo = 0, [node]
    while todo and total <= bound:
        one = todo.pop()
        total += 1
        if isinstance(one, Sequence):
            todo.extend(one.items)
        elif isinstance(one, Mapping):
            todo.extend(value for _, value in one.entries)
    return total
