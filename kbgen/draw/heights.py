"""New heights for the rows and for the lines between them.

The engine spaces rows evenly whatever runs between them; here every gap gets the height that
the level lines in it need, and no more.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from kbgen.draw.drawing import Polyline

TRACK = 12.0
BELOW_NODE = 12.0
ABOVE_NODE = 20.0
PLAIN_GAP = 28.0
ABOVE_LABEL = 10.0
LABEL_CLEAR = 7.0
CUT_ABOVE = 14.0


@dataclass(frozen=True)
class Row:
    """Top and bottom of a row; `arrows` if a node stands in it, so that arrows end at its top."""

    top: float
    bottom: float
    arrows: bool


@dataclass(frozen=True)
class Heights:
    """Old heights and the new ones they become; between two of them the change is linear."""

    old: tuple[float, ...]
    new: tuple[float, ...]
    exact: dict[float, float]
    """The same as a table, for most heights asked for are among them."""
    rows: tuple[Row, ...]
    """The rows in their new places."""
    free_above: tuple[float, ...]
    """For each row, the height below which no level line runs above it."""
    free_below: tuple[float, ...]
    """For each row, the height above which no level line runs below it."""

    def at(self, y: float) -> float:
        """The new height of an old one."""
        known = self.exact.get(y)
        if known is not None:
            return known
        index = min(max(bisect_right(self.old, y) - 1, 0), len(self.old) - 2)
        old_low, old_high = self.old[index], self.old[index + 1]
        new_low, new_high = self.new[index], self.new[index + 1]
        if old_high == old_low:
            return new_low
        return new_low + (y - old_low) * (new_high - new_low) / (old_high - old_low)


def level_lines(lines: Iterable[Polyline]) -> list[float]:
    """The heights of all level segments, sorted, each once."""
    return sorted({a[1] for line in lines for a, b in pairwise(line) if a[1] == b[1]})


def respaced(rows: Sequence[Row], tracks: Sequence[float], top: float) -> Heights:
    """New heights for rows starting at `top`, given the heights of all level segments."""
    old: list[float] = []
    new: list[float] = []
    placed: list[Row] = []
    above: list[float] = []
    below: list[float] = []
    y = top
    for index, row in enumerate(rows):
        placed.append(Row(y, y + row.bottom - row.top, row.arrows))
        old += [row.top, row.bottom]
        new += [y, placed[-1].bottom]
        y = placed[-1].bottom
        if index + 1 == len(rows):
            break
        following = rows[index + 1]
        inside = tracks[bisect_right(tracks, row.bottom) : bisect_left(tracks, following.top)]
        moved = [y + BELOW_NODE + TRACK * place for place in range(len(inside))]
        old += inside
        new += moved
        above.append(moved[-1] if moved else y)
        y = _next_top(y, moved, following.arrows)
        below.append(moved[0] if moved else y - CUT_ABOVE)
    exact = dict(zip(old, new, strict=True))
    return Heights(tuple(old), tuple(new), exact, tuple(placed), (top, *above), (*below, y))


def _next_top(bottom: float, tracks: Sequence[float], arrows: bool) -> float:
    if tracks:
        return tracks[-1] + (ABOVE_NODE if arrows else ABOVE_LABEL)
    return bottom + (PLAIN_GAP if arrows else ABOVE_LABEL)
