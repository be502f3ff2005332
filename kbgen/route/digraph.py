"""Algorithms on directed graphs; they know nothing of procedures.

A graph is a mapping from each node to its successors, in a fixed order.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import TypeVar

N = TypeVar("N")
Graph = Mapping[N, Sequence[N]]


def reachable(graph: Graph[N], starts: Iterable[N]) -> set[N]:
    """Return all nodes that can be reached, the starts included."""
    seen = set(starts)
    todo = list(seen)
    while todo:
        for target in graph.get(todo.pop(), ()):
            if target not in seen:
                seen.add(target)
                todo.append(target)
    return seen


def reverse(graph: Graph[N]) -> dict[N, list[N]]:
    """Return the graph with every edge turned round."""
    turned: dict[N, list[N]] = {node: [] for node in graph}
    for source, targets in graph.items():
        for target in targets:
            turned.setdefault(target, []).append(source)
    return turned


def order(graph: Graph[N], start: N) -> list[N]:
    """Return the reachable nodes in reverse postorder of a depth-first walk."""
    finished: list[N] = []
    seen = {start}
    stack = [(start, iter(graph.get(start, ())))]
    while stack:
        node, targets = stack[-1]
        fresh = next((target for target in targets if target not in seen), None)
        if fresh is None:
            finished.append(node)
            stack.pop()
        else:
            seen.add(fresh)
            stack.append((fresh, iter(graph.get(fresh, ()))))
    finished.reverse()
    return finished


def immediate_dominators(graph: Graph[N], start: N) -> dict[N, N]:
    """Return for each reachable node but the start the last node that every path to it passes.

    Cooper, Harvey and Kennedy, A Simple, Fast Dominance Algorithm, 2001.
    """
    nodes = order(graph, start)
    rank = {node: place for place, node in enumerate(nodes)}
    before = reverse({node: graph.get(node, ()) for node in nodes})
    parent = {start: start}
    changed = True
    while changed:
        changed = False
        for node in nodes[1:]:
            known = [one for one in before[node] if one in parent]
            best = known[0]
            for other in known[1:]:
                best = _meet(parent, rank, best, other)
            if parent.get(node) != best:
                parent[node] = best
                changed = True
    del parent[start]
    return parent


def _meet(parent: Mapping[N, N], rank: Mapping[N, int], one: N, other: N) -> N:
    while one != other:
        while rank[one] > rank[other]:
            one = parent[one]
        while rank[other] > rank[one]:
            other = parent[other]
    return one


def cycle(graph: Graph[N]) -> list[N]:
    """Return the nodes of one cycle, in the order of the walk, or an empty list.

    Of all cycles the one is taken that a depth-first walk in the order of the graph closes first.
    """
    done: set[N] = set()
    for start in graph:
        if start not in done:
            found = _cycle_from(graph, start, done)
            if found:
                return found
    return []


def _cycle_from(graph: Graph[N], start: N, done: set[N]) -> list[N]:
    path = [start]
    on_path = {start}
    stack = [iter(graph.get(start, ()))]
    while stack:
        target = next(stack[-1], None)
        if target is None:
            stack.pop()
            left = path.pop()
            on_path.discard(left)
            done.add(left)
        elif target in on_path:
            return path[path.index(target) :]
        elif target not in done:
            path.append(target)
            on_path.add(target)
            stack.append(iter(graph.get(target, ())))
    return []


def cycles(graph: Graph[N]) -> list[list[N]]:
    """Return the cycles that remain when, one after the other, the edge that closes each is taken away."""
    left = {node: list(targets) for node, targets in graph.items()}
    found = []
    while one := cycle(left):
        found.append(one)
        left[one[-1]].remove(one[0])
    return found


def path(graph: Graph[N], start: N, goal: N) -> list[N]:
    """Return a shortest path from start to goal, or an empty list."""
    came_from: dict[N, N] = {start: start}
    todo = [start]
    for node in todo:
        if node == goal:
            break
        for target in graph.get(node, ()):
            if target not in came_from:
                came_from[target] = node
                todo.append(target)
    if goal not in came_from:
        return []
    steps = [goal]
    while steps[-1] != start:
        steps.append(came_from[steps[-1]])
    return steps[::-1]
