"""Which row of the chart each node and each label stands in, no row wider than a limit.

Depth-first search marks the edges that loop back; list scheduling then fills the rows from
the top, the nodes with the longest way still to go first.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

NODE_GAP = 26.0
LANE = 16.0


@dataclass(frozen=True)
class Link:
    """An edge by node index; `label` is the width of its label in pixels, 0 without one."""

    source: int
    target: int
    label: float = 0.0


@dataclass(frozen=True)
class Ranks:
    """Row of each node, and of each link's label (-1 without one)."""

    nodes: tuple[int, ...]
    labels: tuple[int, ...]


def back_links(count: int, start: int, links: Sequence[Link]) -> frozenset[int]:
    """Indices of the links that lead back to a node still open in a depth-first search."""
    leaving: list[list[int]] = [[] for _ in range(count)]
    for index, link in enumerate(links):
        leaving[link.source].append(index)
    state = [0] * count
    found: set[int] = set()
    for root in (start, *range(count)):
        if state[root] == 0:
            _search(root, leaving, links, state, found)
    return frozenset(found)


def _search(
    root: int, leaving: list[list[int]], links: Sequence[Link], state: list[int], found: set[int]
) -> None:
    """Visit what `root` reaches. State: 0 not seen, 1 open, 2 closed."""
    state[root] = 1
    stack = [(root, iter(leaving[root]))]
    while stack:
        node, rest = stack[-1]
        for index in rest:
            target = links[index].target
            if state[target] == 1:
                found.add(index)
            elif state[target] == 0:
                state[target] = 1
                stack.append((target, iter(leaving[target])))
                break
        else:
            state[node] = 2
            stack.pop()


@dataclass
class _Board:
    """Rows while they are filled: pixels taken by nodes and labels in each row."""

    width: list[float] = field(default_factory=list)

    def at(self, row: int) -> float:
        return self.width[row] if row < len(self.width) else 0.0

    def add(self, row: int, width: float) -> None:
        while len(self.width) <= row:
            self.width.append(0.0)
        self.width[row] += width


class _Scheduler:
    """List scheduling of one chart. Links that loop back count as reversed."""

    def __init__(
        self, widths: Sequence[float], links: Sequence[Link], back: frozenset[int], limit: float
    ) -> None:
        self.widths, self.limit = widths, limit
        self.board = _Board()
        self.rank = [-1] * len(widths)
        self.earliest = [0] * len(widths)
        self.waiting = [0] * len(widths)
        self.below: list[list[tuple[int, int, bool]]] = [[] for _ in widths]
        self.labels_below = [0.0] * len(widths)
        self.labels_above = [0.0] * len(widths)
        self.lines_in = [0] * len(widths)
        self.awaited = [False] * len(widths)
        for index, link in enumerate(links):
            self._enter(link, index in back)
        self.depth = self._depths()

    def _enter(self, link: Link, back: bool) -> None:
        upper, lower = (link.target, link.source) if back else (link.source, link.target)
        room = link.label + NODE_GAP if link.label else 0.0
        if upper == lower:
            self.labels_below[upper] += room
            return
        span = 2 if link.label else 1
        self.below[upper].append((lower, span, back))
        self.waiting[lower] += 1
        self.lines_in[lower] += 1
        (self.labels_above if back else self.labels_below)[link.source] += room

    def _depths(self) -> list[int]:
        """Rows still needed below each node at least."""
        depth = [0] * len(self.rank)
        waiting = list(self.waiting)
        order = [node for node, count in enumerate(waiting) if count == 0]
        for node in order:
            for lower, _, _ in self.below[node]:
                waiting[lower] -= 1
                if waiting[lower] == 0:
                    order.append(lower)
        for node in reversed(order):
            depth[node] = max((depth[b] + span for b, span, _ in self.below[node]), default=0)
        return depth

    def run(self) -> list[int]:
        ready = [node for node, count in enumerate(self.waiting) if count == 0]
        row, live = 0, 0
        while ready:
            placed = self._fill(row, ready, live)
            for node in placed:
                live += self._newly_awaited(node) - bool(self.lines_in[node])
                ready.extend(self._release(node))
            ready = [node for node in ready if self.rank[node] < 0]
            row += 1
        return self.rank

    def _fill(self, row: int, ready: list[int], live: int) -> list[int]:
        """Place what fits into a row, or the most urgent node if the row would stay empty."""
        due = sorted(
            (node for node in ready if self.earliest[node] <= row),
            key=lambda node: (-self.depth[node], node),
        )
        placed: list[int] = []
        lanes = live * LANE
        for node in due:
            lanes_left = lanes - bool(self.lines_in[node]) * LANE
            if self._fits(node, row, lanes_left):
                self._place(node, row)
                placed.append(node)
                lanes = lanes_left
        if due and not placed and not self.board.at(row):
            self._place(due[0], row)
            placed.append(due[0])
        return placed

    def _newly_awaited(self, node: int) -> int:
        """How many nodes get their first line from this one; later lines join the first."""
        count = 0
        for lower, _, _ in self.below[node]:
            count += not self.awaited[lower]
            self.awaited[lower] = True
        return count

    def _fits(self, node: int, row: int, lanes: float) -> bool:
        here = self.board.at(row) + self.widths[node] + NODE_GAP + lanes
        below = self.board.at(row + 1) + self.labels_below[node] + lanes
        above = self.board.at(row - 1) + self.labels_above[node] if row else 0.0
        return (
            here <= self.limit
            and (not self.labels_below[node] or below <= self.limit)
            and (not self.labels_above[node] or above <= self.limit)
        )

    def _place(self, node: int, row: int) -> None:
        self.rank[node] = row
        self.board.add(row, self.widths[node] + NODE_GAP)
        if self.labels_below[node]:
            self.board.add(row + 1, self.labels_below[node])
        if self.labels_above[node]:
            self.board.add(row - 1, self.labels_above[node])

    def _release(self, node: int) -> list[int]:
        freed: list[int] = []
        for lower, span, _ in self.below[node]:
            self.earliest[lower] = max(self.earliest[lower], self.rank[node] + span)
            self.waiting[lower] -= 1
            if self.waiting[lower] == 0:
                freed.append(lower)
        return freed


def assign(
    widths: Sequence[float], links: Sequence[Link], back: frozenset[int], limit: float
) -> Ranks:
    """Rows for nodes of the given widths so that, where possible, none exceeds `limit` pixels.

    Every link not in `back` leads at least one row down, two if it has a label; links in
    `back` lead up likewise. A label stands in the row next to its source.
    """
    rank = _Scheduler(widths, links, back, limit).run()
    labels = tuple(
        _label_row(link, index in back, rank) if link.label or link.source == link.target else -1
        for index, link in enumerate(links)
    )
    return Ranks(tuple(rank), labels)


def _label_row(link: Link, back: bool, rank: list[int]) -> int:
    if link.source == link.target or not back:
        return rank[link.source] + 1
    return rank[link.source] - 1
