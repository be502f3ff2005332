"""Tree -> records: every problem of shape and value is reported, and none of them stops the rest."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from kbgen.diagnostics import Diagnostic, Rule
from kbgen.model.record import Record
from kbgen.model.rules import MISSING_KEY, UNFIT_VALUE, UNKNOWN_FORMAT, UNKNOWN_KEY, WRONG_SHAPE
from kbgen.model.scalars import ScalarError, neutral_scalar, scalar_value
from kbgen.model.scopes import ENCLOSED, Mention
from kbgen.model.shape import KeyShape, ListShape, MapShape, RecordShape, ScalarShape, Shape, UnionShape
from kbgen.model.values import Id, Kind, PathText, Prose, Ref
from kbgen.place import Span
from kbgen.source.tree import NODE_NAMES, Mapping, Node, Scalar, Sequence

FORMAT = 1
R = TypeVar("R", bound=Record)


@dataclass(frozen=True)
class Decoded(Generic[R]):
    """A record with everything that was found on the way.

    ``unsound`` names the top keys under which something is missing or wrong; there the record holds stand-ins, so
    checks of those parts would only repeat the error.
    """

    record: R
    found: tuple[Diagnostic, ...]
    names: tuple[Mention, ...]
    refs: tuple[Mention, ...]
    prose: tuple[Prose, ...]
    paths: tuple[PathText, ...]
    unsound: frozenset[str]


def decode(record: type[R], root: Node) -> Decoded[R]:
    """Decode the tree of a whole file."""
    decoder = _Decoder()
    made = decoder.record(RecordShape(record), root)
    found = [*_format_problems(root), *decoder.found]
    return Decoded(
        made,
        tuple(found),
        tuple(decoder.names),
        tuple(decoder.refs),
        tuple(decoder.prose),
        tuple(decoder.paths),
        frozenset(decoder.unsound),
    )


def _format_problems(root: Node) -> Iterable[Diagnostic]:
    version = root.get("kbgen") if isinstance(root, Mapping) else None
    if isinstance(version, Scalar) and re.fullmatch(r"\d{1,9}", version.text) and int(version.text) != FORMAT:
        message = f"The file says that it is written in format {version.text}; this kbgen reads format {FORMAT}."
        yield Diagnostic(UNKNOWN_FORMAT, version.at, message, UNKNOWN_FORMAT.remedy)


class _Decoder:
    """Walks shape and tree side by side; keeps what it finds."""

    def __init__(self) -> None:
        self.found: list[Diagnostic] = []
        self.names: list[Mention] = []
        self.refs: list[Mention] = []
        self.prose: list[Prose] = []
        self.paths: list[PathText] = []
        self.unsound: set[str] = set()
        self._top = ""
        self._depth = 0
        self._owners: dict[Kind, int] = {}
        self._next_owner = 1

    def value(self, shape: Shape, node: Node) -> Any:
        if isinstance(shape, ScalarShape):
            return self.scalar(shape, node)
        if isinstance(shape, ListShape):
            return self.items_of(shape, node)
        if isinstance(shape, RecordShape):
            return self.record(shape, node)
        if isinstance(shape, UnionShape):
            return self.union(shape, node)
        return self.map(shape, node)

    def report(self, rule: Rule, at: Span, message: str, remedy: str = "") -> None:
        self.unsound.add(self._top)
        self.found.append(Diagnostic(rule, at, message, remedy or rule.remedy))

    def scalar(self, shape: ScalarShape, node: Node) -> Any:
        if not isinstance(node, Scalar):
            message = f"Here belongs a single value, but {NODE_NAMES[type(node)]} stands here."
            self.report(WRONG_SHAPE, node.at, message)
            return neutral_scalar(shape, node.at)
        if node.is_blank or not node.text.strip():
            self.report(MISSING_KEY, node.at, "Nothing is written here.")
            return neutral_scalar(shape, node.at)
        try:
            value = scalar_value(shape, node)
        except ScalarError as error:
            self.report(UNFIT_VALUE, node.at, f"“{node.text}” does not fit here: {error.expected}.", error.help)
            return neutral_scalar(shape, node.at)
        if shape.kind is not None:
            self._mention(shape, value)
        elif shape.type is Prose:
            self.prose.append(value)
        elif shape.type is PathText:
            self.paths.append(value)
        return value

    def _mention(self, shape: ScalarShape, value: Any) -> None:
        assert shape.kind is not None
        mention = Mention(shape.kind, value, self._owners.get(shape.kind, 0))
        if issubclass(shape.type, Id):
            self.names.append(mention)
        elif issubclass(shape.type, Ref):
            self.refs.append(mention)

    def items_of(self, shape: ListShape, node: Node) -> tuple[Any, ...]:
        if isinstance(node, Sequence):
            if len(node.items) < max(shape.at_least, 1 if shape.word else 0):
                self._too_few(shape, node)
            return tuple([self.value(shape.item, item) for item in node.items])
        if isinstance(node, Scalar) and shape.word and node.text == shape.word:
            return ()
        if isinstance(node, Scalar) and node.is_blank:
            word = f" Write {shape.word} if that is what you mean." if shape.word else ""
            self.report(MISSING_KEY, node.at, f"A list is missing here.{word}")
            return ()
        word = f" or the word {shape.word}" if shape.word else ""
        self.report(WRONG_SHAPE, node.at, f"Here belongs a list{word}, but {NODE_NAMES[type(node)]} stands here.")
        return ()

    def _too_few(self, shape: ListShape, node: Sequence) -> None:
        if shape.word:
            self.report(MISSING_KEY, node.at, f"The list is empty. Write {shape.word} if that is what you mean.")
        else:
            self.report(
                MISSING_KEY, node.at, f"The list has {len(node.items)} entries; it needs at least {shape.at_least}."
            )

    def map(self, shape: MapShape, node: Node) -> dict[Any, Any]:
        if not isinstance(node, Mapping):
            message = f"Here belongs a group of keys, but {NODE_NAMES[type(node)]} stands here."
            self.report(WRONG_SHAPE, node.at, message)
            return {}
        return {self.scalar(shape.key, name): self.scalar(shape.value, value) for name, value in node.entries}

    def union(self, shape: UnionShape, node: Node) -> Any:
        words = [word for word, _ in shape.choices]
        if not isinstance(node, Mapping):
            self.report(WRONG_SHAPE, node.at, f"Here belongs a step, but {NODE_NAMES[type(node)]} stands here.")
            return None
        present = [name for name, _ in node.entries if name.text in words]
        if len(present) == 1:
            return self.record(dict(shape.choices)[present[0].text], node)
        self._report_kind(node, present, words)
        return None

    def _report_kind(self, node: Mapping, present: list[Scalar], words: list[str]) -> None:
        if present:
            both = " and ".join(f"“{name.text}”" for name in present)
            self.report(
                UNKNOWN_KEY, present[1].at, f"A step is of one kind, but this one has {both}.", "Split it in two."
            )
            return
        near = next((match for name, _ in node.entries for match in _near(name.text, words)), None)
        hint = f"Did you mean “{near}”?" if near else "Start the step with one of: " + ", ".join(words) + "."
        self.report(MISSING_KEY, _head(node), "The step does not say what is done in it.", hint)

    def record(self, shape: RecordShape, node: Node) -> Any:
        if not isinstance(node, Mapping):
            self.report(
                WRONG_SHAPE, node.at, f"Here belongs a group of keys, but {NODE_NAMES[type(node)]} stands here."
            )
            return self._neutral(shape, node.at)
        owners = self._owners
        enclosed = ENCLOSED.get(shape.type)
        if enclosed:
            self._owners = {**owners, **dict.fromkeys(enclosed, self._next_owner)}
            self._next_owner += 1
        self._depth += 1
        values = self._entries(shape, node)
        self._depth -= 1
        self._owners = owners
        return _make(shape.type, values)

    def _entries(self, shape: RecordShape, node: Mapping) -> dict[str, Any]:
        keys = shape.keys
        values: dict[str, Any] = {"at": node.at}
        for name, child in node.entries:
            known = keys.get(name.text)
            if known is None:
                self._unknown(name, keys)
                continue
            if self._depth == 1:
                self._top = name.text
            values[known.attribute] = self.value(known.shape, child)
        for known in keys.values():
            if known.attribute not in values:
                values[known.attribute] = self._left_out(known, node)
        return values

    def _unknown(self, name: Scalar, keys: dict[str, KeyShape]) -> None:
        if self._depth == 1:
            self._top = name.text
        near = _near(name.text, list(keys))
        remedy = f"Did you mean “{near[0]}”?" if near else "Keys that belong here: " + ", ".join(keys) + "."
        self.report(UNKNOWN_KEY, name.at, f"The key “{name.text}” does not belong here.", remedy)

    def _left_out(self, known: KeyShape, node: Mapping) -> Any:
        if not known.required:
            return known.default
        if self._depth == 1:
            self._top = known.name
        word = known.shape.word if isinstance(known.shape, ListShape) else None
        none = f" Write “{known.name}: {word}” if that is what you mean." if word else ""
        message = f"The key “{known.name}” is missing."
        self.report(MISSING_KEY, _head(node), message, f"Add “{known.name}”: {known.doc}{none}")
        return self._neutral(known.shape, node.at)

    def _neutral(self, shape: Shape, at: Span) -> Any:
        """Stand in for a value that is missing, so that the rest can still be looked at."""
        if isinstance(shape, ScalarShape):
            return neutral_scalar(shape, at)
        if isinstance(shape, ListShape):
            return ()
        if isinstance(shape, MapShape):
            return {}
        if isinstance(shape, RecordShape):
            values = {
                one.attribute: self._neutral(one.shape, at) if one.required else one.default
                for one in shape.keys.values()
            }
            return _make(shape.type, {"at": at, **values})
        return None


def _make(record: type[Record], values: dict[str, Any]) -> Record:
    """Make a frozen record without the cost of its own constructor, which matters at 10,000 procedures."""
    made = object.__new__(record)
    made.__dict__.update(values)
    return made


def _head(node: Mapping) -> Span:
    """The first key of a group: the place to show for something that is not there."""
    return node.entries[0][0].at if node.entries else node.at


def _near(word: str, words: list[str]) -> list[str]:
    return difflib.get_close_matches(word, words, n=1, cutoff=0.6)


