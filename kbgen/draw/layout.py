"""From a chart to a drawing: sizes, rows, engine, heights, then labels and line ends."""

from __future__ import annotations

from dataclasses import dataclass

from kbgen.draw import proportions as p
from kbgen.draw.assemble import assemble
from kbgen.draw.chart import Chart, Edge, check_chart, merged_edges
from kbgen.draw.drawing import Drawing
from kbgen.draw.engine import Options, place
from kbgen.draw.gate import faults
from kbgen.draw.ranks import Link, assign, back_links
from kbgen.draw.sizes import Sized, size_label, size_node
from kbgen.draw.wiring import Plan, wire_up
from kbgen.draw.wording import REPEAT_WORDS

PADDING = 6.0
"""Added to widths given to the engine, so that lines keep clear of the boxes."""


@dataclass(frozen=True)
class Attempt:
    """One way of laying a chart out: how wide a row and a label may be in pixels, how many
    rows a line may pass outside a lane, and the engine's options."""

    row_limit: float
    options: Options
    label_limit: float = p.LABEL_LIMIT
    longest: int = 18


_NO_LANES = 1_000_000
_DENSE = Options(lane_gap=10.0, node_gap=14.0)
ATTEMPTS = (
    Attempt(420.0, Options()),
    Attempt(320.0, Options()),
    Attempt(370.0, Options(effort="balanced"), longest=_NO_LANES),
    Attempt(520.0, Options(effort="balanced")),
    Attempt(420.0, Options(compact_rounds=8)),
    Attempt(320.0, _DENSE, longest=_NO_LANES),
    Attempt(250.0, _DENSE),
    Attempt(600.0, Options(effort="thorough")),
    Attempt(400.0, _DENSE, 76.0),
    Attempt(300.0, _DENSE, 76.0, _NO_LANES),
    Attempt(1.0, _DENSE, 76.0),
    Attempt(400.0, _DENSE, 60.0),
    Attempt(1.0, _DENSE, 60.0, 6),
    Attempt(300.0, _DENSE, 60.0, _NO_LANES),
    Attempt(200.0, Options(effort="thorough", lane_gap=10.0, node_gap=14.0), 60.0, 30),
)


def layout(chart: Chart) -> Drawing:
    """Lay a chart out, taking the first attempt without a fault.

    If every attempt has faults the one with the fewest, or the narrowest of those, is returned, for the gate to report.
    Raises ValueError for a chart that names absent nodes or repeats an id.
    """
    check_chart(chart)
    best: tuple[int, float, Drawing] | None = None
    for attempt in ATTEMPTS:
        drawing = _draw(_plan(chart, attempt.label_limit), attempt)
        count = len(faults(drawing))
        if count == 0:
            return drawing
        if best is None or (count, drawing.width) < best[:2]:
            best = (count, drawing.width, drawing)
    assert best is not None
    return best[2]


def _plan(chart: Chart, label_limit: float) -> Plan:
    """Measure the nodes and labels, and find the edges that loop back."""
    index = {node.id: place for place, node in enumerate(chart.nodes)}
    edges = merged_edges(chart)
    answers = [0] * len(chart.nodes)
    for edge in edges:
        answers[index[edge.source]] += 1
    sizes = tuple(size_node(node) for node in chart.nodes)
    limits = [min(label_limit, p.LABEL_LIMIT if n < 4 else p.LABEL_LIMIT_MANY) for n in answers]
    labels = tuple(_label(edge, limits[index[edge.source]]) for edge in edges)
    links = tuple(
        Link(index[edge.source], index[edge.target], label.width + PADDING if label else 0.0)
        for edge, label in zip(edges, labels, strict=True)
    )
    back = back_links(len(chart.nodes), index[chart.start], links)
    return Plan(chart, edges, sizes, labels, links, back)


def _label(edge: Edge, limit: float) -> Sized | None:
    """Size of an edge's label. A line from a node to itself needs one to turn at."""
    words = edge.label or (REPEAT_WORDS if edge.source == edge.target else "")
    return size_label(words, limit) if words else None


def _draw(plan: Plan, attempt: Attempt) -> Drawing:
    widths = [size.width + PADDING for size in plan.sizes]
    ranks = assign(widths, plan.links, plan.back, attempt.row_limit)
    wiring = wire_up(plan, ranks, PADDING, attempt.longest)
    return assemble(plan, wiring, place(wiring.items, wiring.wires, attempt.options))
