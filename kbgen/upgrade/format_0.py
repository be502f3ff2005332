"""From format 0, that of the first drafts, to format 1: some keys of procedures got better names."""

from __future__ import annotations

from kbgen.source.edit import Edit, value_of
from kbgen.source.tree import Node
from kbgen.upgrade.migration import Migration, rename_key, set_version


def _edits(root: Node) -> list[Edit]:
    return [
        *set_version(root, 1),
        *rename_key(root, "status", "state"),
        *rename_key(root, "fault", "title"),
        *rename_key(value_of(root, "before"), "tools-needed", "tools"),
    ]


MIGRATION = Migration(0, 1, _edits)
