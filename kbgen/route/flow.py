"""Forward dataflow to a fixed point on a directed graph; it knows nothing of procedures."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable, Mapping
from typing import TypeVar

N = TypeVar("N")
E = TypeVar("E")
V = TypeVar("V")


def forward(
    start: N,
    first: frozenset[V],
    edges: Mapping[N, Iterable[tuple[N, E]]],
    along: Callable[[N, E, frozenset[V]], frozenset[V]],
) -> dict[N, frozenset[V]]:
    """Return for each reachable node all values that can hold when it is entered.

    ``along`` turns the values at a node into those that pass along one of its edges; it must be monotone, so that
    more values in never mean fewer out.
    """
    held: dict[N, frozenset[V]] = {start: first}
    todo = deque([start])
    while todo:
        node = todo.popleft()
        for target, edge in edges.get(node, ()):
            passed = along(node, edge, held[node])
            known = held.get(target)
            joined = passed if known is None else known | passed
            if joined != known:
                held[target] = joined
                todo.append(target)
    return held


def trail(
    start: N,
    first: V,
    edges: Mapping[N, Iterable[tuple[N, E]]],
    along: Callable[[N, E, frozenset[V]], frozenset[V]],
    is_sought: Callable[[N, V], bool],
) -> list[tuple[N, E | None]]:
    """Return a shortest path on which a sought value holds at a node: each node with the edge that leaves it there.

    The last node has no edge; the list is empty if there is no such path. ``along`` is as for ``forward`` and must
    treat each value by itself.
    """
    came_from: dict[tuple[N, V], tuple[tuple[N, V], E] | None] = {(start, first): None}
    todo = deque([(start, first)])
    while todo:
        here = todo.popleft()
        node, value = here
        if is_sought(node, value):
            return _back(here, came_from)
        for target, edge in edges.get(node, ()):
            for passed in along(node, edge, frozenset({value})):
                if (target, passed) not in came_from:
                    came_from[target, passed] = (here, edge)
                    todo.append((target, passed))
    return []


def _back(
    here: tuple[N, V], came_from: Mapping[tuple[N, V], tuple[tuple[N, V], E] | None]
) -> list[tuple[N, E | None]]:
    steps: list[tuple[N, E | None]] = [(here[0], None)]
    before = came_from[here]
    while before is not None:
        here, edge = before
        steps.append((here[0], edge))
        before = came_from[here]
    return steps[::-1]
