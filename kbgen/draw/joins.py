"""Long lines to one target made to join on the way, so that many lines become one.

Every line keeps its own way to the first junction; from there all share a trunk. Lines that
loop back join in the same manner, upwards.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Run:
    """The part of an edge to be joined: from the row of its source, or of its label, on."""

    start: int
    target: int
    end: int
    """Row of the target."""


@dataclass(frozen=True)
class Joins:
    """`rows` of the junctions; for each run the junction it leads to (-1: straight to its
    target); for each junction the next one (-1: the target), and that target."""

    rows: tuple[int, ...]
    first: tuple[int, ...]
    following: tuple[int, ...]
    targets: tuple[int, ...]


def joins(runs: Sequence[Run | None]) -> Joins:
    """Junctions in the row after each run's start, for runs that share target and direction.

    A place in the sequence without a run keeps the others in step with the edges.
    """
    rows: list[int] = []
    following: list[int] = []
    targets: list[int] = []
    first = [-1] * len(runs)
    for members in _groups(runs):
        head, longest = members[0]
        step = 1 if longest.end > longest.start else -1
        last = -1
        for member, run in members[1:]:
            row = run.start + step
            if (run.end - row) * step < 1:
                break
            if last < 0 or rows[last] != row:
                rows.append(row)
                following.append(-1)
                targets.append(run.target)
                if last >= 0:
                    following[last] = len(rows) - 1
                else:
                    first[head] = len(rows) - 1
                last = len(rows) - 1
            first[member] = last
    return Joins(tuple(rows), tuple(first), tuple(following), tuple(targets))


def _groups(runs: Sequence[Run | None]) -> list[list[tuple[int, Run]]]:
    """Runs to one target in one direction, two or more, the longest first."""
    found: dict[tuple[int, bool], list[tuple[int, Run]]] = {}
    for index, run in enumerate(runs):
        if run and run.start != run.end:
            found.setdefault((run.target, run.end > run.start), []).append((index, run))
    groups = [members for members in found.values() if len(members) > 1]
    for members in groups:
        members.sort(key=lambda member: (-abs(member[1].end - member[1].start), member[0]))
    return groups
