"""A page before it has a shell around it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Page:
    """A page of the site: its path below the root, its title as plain text and its content as HTML."""

    path: str
    title: str
    html: str

    @property
    def depth(self) -> int:
        """How many folders below the root the page lies."""
        return self.path.count("/")
