"""A progress bar for long work: on a terminal only, and only when it takes a while."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Sequence
from typing import TypeVar

T = TypeVar("T")

_WORTH_SHOWING = 200


def shown(what: str) -> Callable[[Sequence[T]], Iterable[T]]:
    """Return a function that shows how far a loop over items has come."""

    def track(items: Sequence[T]) -> Iterable[T]:
        if len(items) < _WORTH_SHOWING or not sys.stderr.isatty():
            return items
        from rich.console import Console
        from rich.progress import track as rich_track

        return rich_track(items, description=what, console=Console(stderr=True), transient=True)

    return track
