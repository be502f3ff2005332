"""Carry out, one after the other, the migrations that a file needs."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from kbgen.model.decode import FORMAT
from kbgen.source.edit import apply, value_of
from kbgen.source.read import read_text
from kbgen.source.tree import Node, Scalar
from kbgen.upgrade import format_0
from kbgen.upgrade.migration import Migration

_VERSION = re.compile(r"[0-9]{1,9}")

MIGRATIONS: tuple[Migration, ...] = (format_0.MIGRATION,)


class NotUpgradedError(Exception):
    """A file cannot be moved to the present format; the message says why."""


@dataclass(frozen=True)
class Upgraded:
    """A file in the present format, and the version that it was in before."""

    text: str
    before: int


def upgrade(text: str, migrations: Sequence[Migration] = MIGRATIONS, present: int = FORMAT) -> Upgraded:
    """Move the text of a file to the present format; raise NotUpgradedError if there is no way to do so."""
    first = version = _version(_tree(text))
    by_start = {one.before: one for one in migrations}
    while version != present:
        migration = by_start.get(version)
        if version > present or migration is None:
            raise NotUpgradedError(_no_way(version, present))
        text = apply(text, migration.edits(_tree(text)))
        version = _version(_tree(text))
        if version != migration.after:
            raise NotUpgradedError(f"the version of the format could not be changed to {migration.after}")
    return Upgraded(text, first)


def _no_way(version: int, present: int) -> str:
    if version > present:
        return f"it is written in format {version}, which is newer than this kbgen; install a newer kbgen"
    return f"it is written in format {version}, from which no way to format {present} is known"


def _tree(text: str) -> Node:
    outcome = read_text("", text)
    if outcome.value is None or outcome.found:
        one = outcome.found[0]
        raise NotUpgradedError(f"line {one.at.line + 1}: {one.message} Mend that first")
    return outcome.value


def _version(root: Node) -> int:
    written = value_of(root, "kbgen")
    if not isinstance(written, Scalar) or not _VERSION.fullmatch(written.text):
        raise NotUpgradedError("it does not say in which version of the format it is written (kbgen: 1)")
    return int(written.text)
