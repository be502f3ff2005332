"""What a migration is, and what migrations are made of."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from kbgen.source.edit import Edit, quoted
from kbgen.source.tree import Mapping, Node, Scalar


@dataclass(frozen=True)
class Migration:
    """The way from one version of the format to the next: the edits that a file needs, worked out from its tree."""

    before: int
    after: int
    edits: Callable[[Node], list[Edit]]


def set_version(root: Node, version: int) -> Iterator[Edit]:
    """Put another version of the format in place of the one that the file names."""
    written = root.get("kbgen") if isinstance(root, Mapping) else None
    if isinstance(written, Scalar):
        yield Edit(written.at, str(version))


def rename_key(group: Node | None, before: str, after: str) -> Iterator[Edit]:
    """Rename a key of a group; nothing where the new key stands there already."""
    if not isinstance(group, Mapping) or group.get(after) is not None:
        return
    for name, _ in group.entries:
        if name.text == before:
            yield Edit(name.at, quoted(after) if name.quoted else after)
