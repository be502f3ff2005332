"""The graph algorithms against networkx, on random graphs."""

from __future__ import annotations

import networkx as nx
from hypothesis import given, settings
from hypothesis import strategies as st

from kbgen.route.digraph import cycle, cycles, immediate_dominators, order, path, reachable, reverse
from kbgen.route.flow import forward

NODES = st.integers(1, 9)
MANY = settings(max_examples=150, deadline=None)


@st.composite
def graphs(draw: st.DrawFn) -> dict[int, list[int]]:
    size = draw(NODES)
    target = st.integers(0, size - 1)
    return {node: draw(st.lists(target, unique=True, max_size=4)) for node in range(size)}


def _nx(graph: dict[int, list[int]]) -> nx.DiGraph:
    return nx.DiGraph(graph)


@MANY
@given(graphs())
def test_reachable(graph: dict[int, list[int]]) -> None:
    assert reachable(graph, [0]) == nx.descendants(_nx(graph), 0) | {0}
    assert reachable(graph, []) == set()
    assert set(order(graph, 0)) == reachable(graph, [0])


@MANY
@given(graphs())
def test_reverse_turns_every_edge(graph: dict[int, list[int]]) -> None:
    turned = {(source, target) for source, targets in reverse(graph).items() for target in targets}
    assert turned == set(_nx(graph).reverse().edges)


@MANY
@given(graphs())
def test_immediate_dominators(graph: dict[int, list[int]]) -> None:
    expected = dict(nx.immediate_dominators(_nx(graph), 0))
    expected.pop(0, None)
    assert immediate_dominators(graph, 0) == expected


@MANY
@given(graphs())
def test_a_cycle_is_one_and_is_missing_only_without_any(graph: dict[int, list[int]]) -> None:
    found = cycle(graph)
    assert bool(found) != nx.is_directed_acyclic_graph(_nx(graph))
    assert len(set(found)) == len(found)
    assert all(target in graph[source] for source, target in zip(found, found[1:] + found[:1], strict=True))


@MANY
@given(graphs())
def test_taking_away_what_closes_the_cycles_leaves_none(graph: dict[int, list[int]]) -> None:
    found = cycles(graph)
    left = _nx(graph)
    left.remove_edges_from([(one[-1], one[0]) for one in found])
    assert nx.is_directed_acyclic_graph(left)
    assert len({(one[-1], one[0]) for one in found}) == len(found)
    assert bool(found) != nx.is_directed_acyclic_graph(_nx(graph))


@MANY
@given(graphs(), st.integers(0, 8))
def test_path_is_a_shortest_one(graph: dict[int, list[int]], goal: int) -> None:
    goal %= len(graph)
    found = path(graph, 0, goal)
    if not nx.has_path(_nx(graph), 0, goal):
        assert found == []
        return
    assert (found[0], found[-1]) == (0, goal)
    assert all(target in graph[source] for source, target in zip(found, found[1:], strict=False))
    assert len(found) - 1 == nx.shortest_path_length(_nx(graph), 0, goal)


@st.composite
def flows(draw: st.DrawFn) -> dict[int, list[tuple[int, str]]]:
    """Graphs whose edges keep a value, or set it to one of three."""
    graph = draw(graphs())
    return {
        node: [(one, draw(st.sampled_from(["keep", "a", "b", "c"]))) for one in targets]
        for node, targets in graph.items()
    }


@MANY
@given(flows())
def test_forward_finds_just_the_values_of_single_walks(edges: dict[int, list[tuple[int, str]]]) -> None:
    held = forward(0, frozenset("s"), edges, lambda node, edge, values: values if edge == "keep" else frozenset(edge))
    walked = {(0, "s")}
    todo = [(0, "s")]
    while todo:
        node, value = todo.pop()
        for target, edge in edges[node]:
            state = (target, value if edge == "keep" else edge)
            if state not in walked:
                walked.add(state)
                todo.append(state)
    assert {(node, value) for node, values in held.items() for value in values} == walked
