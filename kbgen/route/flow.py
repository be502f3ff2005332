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
