"""Long lines run outside the rows they pass, and lines to one target share a lane."""

from __future__ import annotations

from itertools import pairwise

from kbgen.draw.chart import Chart, Edge, Node, Shape
from kbgen.draw.drawing import Drawing, EdgeLine
from kbgen.draw.gate import faults
from kbgen.draw.layout import layout

from .charts import random_chart


def ladder(questions: int) -> Chart:
    """Questions one after another, each with a way out to the last node, and one loop back."""
    names = [f"q{place}" for place in range(questions)]
    nodes = [Node(name, Shape.DECISION, "Is the fan running?", f"#{name}") for name in names]
    nodes.append(Node("end", Shape.TERMINATOR, "Hand over", "#end"))
    edges = [Edge(a, b, "Yes") for a, b in pairwise([*names, "end"])]
    edges += [Edge(name, "end", "No") for name in names[:3]]
    edges.append(Edge(names[-1], names[1], "Again"))
    return Chart("T", "D", names[0], tuple(nodes), tuple(edges), "p")


def edge(drawing: Drawing, source: str, target: str) -> EdgeLine:
    (found,) = (e for e in drawing.edges if (e.source, e.target) == (source, target))
    return found


def test_long_lines_to_one_target_share_one_outer_lane() -> None:
    drawing = layout(ladder(14))
    assert faults(drawing) == ()
    ways_out = [edge(drawing, f"q{place}", "end") for place in range(3)]
    (trunk,) = (way for way in ways_out if not way.shared)
    lane = {a[0] for a, b in pairwise(trunk.legs[-1]) if abs(a[1] - b[1]) > 500}
    assert len(lane) == 1
    (x,) = lane
    left = min(node.box.x for node in drawing.nodes)
    right = max(node.box.right for node in drawing.nodes)
    assert x < left or x > right
    assert all(way.shared[0][0] == x for way in ways_out if way.shared)


def test_a_long_loop_runs_straight_up_a_lane() -> None:
    loop = edge(layout(ladder(14)), "q13", "q1")
    assert loop.back
    assert sum(a[0] == b[0] and abs(a[1] - b[1]) > 500 for a, b in pairwise(loop.legs[-1])) == 1


def test_a_joining_line_stops_where_it_meets_the_other() -> None:
    for seed in range(30):
        drawing = layout(random_chart(seed, 40))
        trunks = {e.legs[-1][-1]: e.legs[-1] for e in drawing.edges if not e.shared}
        for joining in (e for e in drawing.edges if e.shared):
            (x0, y0), (x1, y1) = joining.legs[-1][-2:]
            for a, b in pairwise(trunks[joining.shared[-1]]):
                if a[0] == b[0] == x0 == x1:
                    overlap = min(max(y0, y1), max(a[1], b[1])) - max(min(y0, y1), min(a[1], b[1]))
                    assert overlap <= 0
