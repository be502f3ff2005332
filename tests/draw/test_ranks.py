"""Rows: links lead down, loops lead up, and no row is wider than its limit."""

from __future__ import annotations

import networkx
from hypothesis import given
from hypothesis import strategies as st

from kbgen.draw.chart import merged_edges
from kbgen.draw.joins import Run, joins
from kbgen.draw.ranks import NODE_GAP, Link, Ranks, assign, back_links

from .charts import random_chart


@st.composite
def graphs(draw: st.DrawFn) -> tuple[int, list[Link]]:
    count = draw(st.integers(1, 14))
    node = st.integers(0, count - 1)
    pairs = draw(st.lists(st.tuples(node, node), max_size=24, unique=True))
    return count, [Link(a, b, draw(st.sampled_from([0.0, 40.0, 100.0]))) for a, b in pairs]


def ranked(count: int, links: list[Link], limit: float) -> tuple[frozenset[int], Ranks]:
    back = back_links(count, 0, links)
    return back, assign([150.0] * count, links, back, limit)


@given(graphs())
def test_without_the_loops_no_cycle_is_left(graph: tuple[int, list[Link]]) -> None:
    count, links = graph
    back = back_links(count, 0, links)
    kept = [(link.source, link.target) for index, link in enumerate(links) if index not in back]
    assert networkx.is_directed_acyclic_graph(networkx.DiGraph(kept))


@given(graphs())
def test_a_graph_without_cycles_has_no_loops(graph: tuple[int, list[Link]]) -> None:
    count, links = graph
    forward = [link for link in links if link.source < link.target]
    assert back_links(count, 0, forward) == frozenset()


@given(graphs(), st.sampled_from([1.0, 200.0, 420.0, 700.0]))
def test_links_lead_down_and_loops_up_with_room_for_a_label(graph: tuple[int, list[Link]], limit: float) -> None:
    count, links = graph
    back, ranks = ranked(count, links, limit)
    assert min(ranks.nodes) == 0
    for index, link in enumerate(links):
        if link.source == link.target:
            continue
        step = -1 if index in back else 1
        rows = (ranks.nodes[link.target] - ranks.nodes[link.source]) * step
        assert rows >= (2 if link.label else 1)
        if link.label:
            assert ranks.labels[index] == ranks.nodes[link.source] + step
        else:
            assert ranks.labels[index] == -1


@given(graphs(), st.sampled_from([200.0, 420.0, 700.0]))
def test_a_row_of_several_nodes_is_within_the_limit(graph: tuple[int, list[Link]], limit: float) -> None:
    count, links = graph
    _, ranks = ranked(count, links, limit)
    for row in set(ranks.nodes):
        beside = ranks.nodes.count(row)
        assert beside == 1 or beside * (150.0 + NODE_GAP) <= limit


@given(graphs())
def test_every_row_holds_something(graph: tuple[int, list[Link]]) -> None:
    count, links = graph
    _, ranks = ranked(count, links, 420.0)
    used = set(ranks.nodes) | {row for row in ranks.labels if row >= 0}
    assert used == set(range(max(used) + 1))


def test_junctions_lie_on_the_way_of_every_line_that_uses_them() -> None:
    for seed in range(40):
        chart = random_chart(seed, 40)
        index = {node.id: place for place, node in enumerate(chart.nodes)}
        links = [Link(index[e.source], index[e.target], 50.0 if e.label else 0.0) for e in merged_edges(chart)]
        back, ranks = ranked(len(index), links, 420.0)
        runs = [
            Run(ranks.nodes[link.source] if row < 0 else row, link.target, ranks.nodes[link.target])
            for link, row in zip(links, ranks.labels, strict=True)
        ]
        met = joins(runs)
        for run, junction in zip(runs, met.first, strict=True):
            row = run.start
            while junction >= 0:
                assert met.targets[junction] == run.target
                assert min(row, run.end) < met.rows[junction] < max(row, run.end)
                row, junction = met.rows[junction], met.following[junction]
