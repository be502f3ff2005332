"""The tree that a YAML file becomes: scalars keep their text, and everything keeps its place.

A scalar is a named tuple, because a file has hundreds and they are made three times faster than a frozen dataclass.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from kbgen.place import Span


class Scalar(NamedTuple):
    """A single value, always as the text that the author wrote (``No`` stays the word No)."""

    text: str
    at: Span
    quoted: bool = False

    @property
    def is_blank(self) -> bool:
        """Tell whether nothing was written after the colon."""
        return not self.quoted and self.text in ("", "~")


@dataclass(frozen=True, slots=True)
class Sequence:
    """A YAML list."""

    items: tuple[Node, ...]
    at: Span


@dataclass(frozen=True, slots=True)
class Mapping:
    """A YAML mapping, in the order of the file."""

    entries: tuple[tuple[Scalar, Node], ...]
    at: Span

    def get(self, key: str) -> Node | None:
        """Return the value under a key, or None."""
        return next((value for name, value in self.entries if name.text == key), None)


Node = Scalar | Sequence | Mapping

NODE_NAMES = {Scalar: "a single value", Sequence: "a list", Mapping: "a group of keys"}
