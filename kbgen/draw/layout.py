"""From a chart to a drawing: sizes, rows, engine, heights, then labels and line ends."""

from __future__ import annotations

from dataclasses import dataclass

from kbgen.draw import proportions as p
from kbgen.draw.chart import Chart, Edge, check_chart, merged_edges
from kbgen.draw.engine import Options, place
from kbgen.draw.gate import faults
from kbgen.draw.assemble import assemble
from kbgen.draw.drawing import Drawing
from kbgen.draw.ranks import Link, assign, back_links
from kbgen.draw.sizes import Sized, size_label, size_node
from kbgen.draw.wiring import Plan, wire_up

PADDING = 6.0
"""Added to widths given to the engine, so that lines keep clear of the boxes."""


@dataclass(frozen=True)
class Attempt:
    """One way of laying a chart out: how wide a row may be, and the engine's options."""

    row_limit: float
    options: Options


ATTEMPTS = (
    Attempt(420.0, Options()),
    Attempt(320.0, Options()),
    Attempt(420.0, Options(compact_rounds=8)),
    Attempt(520.0, Options(effort="balanced")),
    Attempt(370.0, Options(effort="balanced", lane_gap=12.0)),
    Attempt(320.0, Options(compact_rounds=8, lane_gap=12.0)),
    Attempt(270.0, Options(lane_gap=11.0, node_gap=18.0)),
    Attempt(600.0, Options(effort="thorough")),
    Attempt(350.0, Options(effort="thorough", lane_gap=12.0)),
    Attempt(1.0, Options(lane_gap=11.0, node_gap=18.0)),
)


def layout(chart: Chart) -> Drawing:
    """Lay a chart out, taking the first attempt without a fault.

    If every attempt has faults the one with the fewest is returned, for the gate to report.
    Raises ValueError for a chart that names absent nodes or repeats an id.
    """
    check_chart(chart)
    plan = _plan(chart)
    best: tuple[int, Drawing] | None = None
    for attempt in ATTEMPTS:
        drawing = _draw(plan, attempt)
        count = len(faults(drawing))
        if count == 0:
            return drawing
        if best is None or count < best[0]:
            best = (count, drawing)
    assert best is not None
    return best[1]


def _plan(chart: Chart) -> Plan:
    """Measure the nodes and labels, and find the edges that loop back."""
    index = {node.id: place for place, node in enumerate(chart.nodes)}
    edges = merged_edges(chart)
    answers = [0] * len(chart.nodes)
    for edge in edges:
        answers[index[edge.source]] += 1
    sizes = tuple(size_node(node) for node in chart.nodes)
    labels = tuple(_label(edge, answers[index[edge.source]]) for edge in edges)
    links = tuple(
        Link(index[edge.source], index[edge.target], label.width + PADDING if label else 0.0)
        for edge, label in zip(edges, labels, strict=True)
    )
    back = back_links(len(chart.nodes), index[chart.start], links)
    return Plan(chart, edges, sizes, labels, links, back)


def _label(edge: Edge, answers: int) -> Sized | None:
    if edge.label:
        return size_label(edge.label, answers)
    return Sized(p.LABEL_PAD, p.LABEL_LINE, ()) if edge.source == edge.target else None


def _draw(plan: Plan, attempt: Attempt) -> Drawing:
    widths = [size.width + PADDING for size in plan.sizes]
    ranks = assign(widths, plan.links, plan.back, attempt.row_limit)
    wiring = wire_up(plan, ranks, PADDING)
    return assemble(plan, wiring, place(wiring.items, wiring.wires, attempt.options))
