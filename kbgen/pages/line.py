"""A line of a step's work plan."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup


@dataclass(frozen=True)
class Line:
    """A short line of the work plan: a word and what belongs to it."""

    word: str
    html: Markup
