"""From the engine's raw places to the finished drawing."""

from __future__ import annotations

from collections.abc import Sequence

from kbgen.draw import proportions as p
from kbgen.draw.drawing import Box, Drawing, EdgeLine, LabelBox, Line, NodeBox, Point, Polyline
from kbgen.draw.engine import Item, Placed
from kbgen.draw.heights import LABEL_CLEAR, Heights, Row, level_lines, respaced
from kbgen.draw.lines import end_at, from_label, from_outline, joined, start_at, to_label, to_outline
from kbgen.draw.sizes import Sized
from kbgen.draw.wiring import Plan, Way, Wiring


def assemble(plan: Plan, wiring: Wiring, placed: Placed) -> Drawing:
    """Space the rows, put labels beside their questions, and end each line at an outline."""
    heights = _heights(wiring.items, len(plan.sizes), placed)
    left = p.MARGIN - _leftmost(wiring.items, placed)
    centres = [(round(x) + left, heights.at(y)) for x, y in placed.centres]
    wires = _meeting([_moved(wire, heights, left) for wire in placed.wires], wiring, centres)
    nodes = tuple(_node_box(plan, index, centres[index]) for index in range(len(plan.sizes)))
    edges = tuple(
        _edge(plan, index, way, wires, nodes, _label_box(plan, index, way, wiring, centres, heights))
        for index, way in enumerate(wiring.ways)
    )
    height = heights.rows[-1].bottom + p.MARGIN
    gaps = tuple(row.top - 14.0 for row in heights.rows[1:] if row.arrows)
    return Drawing(_rightmost(nodes, edges) + p.MARGIN, height, nodes, edges, gaps)


def _heights(items: Sequence[Item], nodes: int, placed: Placed) -> Heights:
    rows: dict[int, Row] = {}
    for index, (item, (_, y)) in enumerate(zip(items, placed.centres, strict=True)):
        known = rows.get(item.row, Row(y, y, False))
        half = item.height / 2
        arrows = known.arrows or index < nodes
        rows[item.row] = Row(min(y - half, known.top), max(y + half, known.bottom), arrows)
    ordered = [rows[row] for row in sorted(rows)]
    return respaced(ordered, level_lines(placed.wires), p.MARGIN)


def _leftmost(items: Sequence[Item], placed: Placed) -> float:
    boxes = min(
        x - item.width / 2 for item, (x, _) in zip(items, placed.centres, strict=True)
    )
    return round(min([boxes, *(x for wire in placed.wires for x, _ in wire)]))


def _rightmost(nodes: Sequence[NodeBox], edges: Sequence[EdgeLine]) -> float:
    right = max(node.box.right for node in nodes)
    for edge in edges:
        right = max(right, *(x for leg in edge.legs for x, _ in leg))
        if edge.label:
            right = max(right, edge.label.box.right)
    return right


def _moved(wire: Polyline, heights: Heights, left: float) -> Polyline:
    return tuple((round(x) + left, heights.at(y)) for x, y in wire)


def _meeting(wires: list[Polyline], wiring: Wiring, centres: list[Point]) -> list[Polyline]:
    """Wires that lead to or from a junction made to meet in one point."""
    first = len(centres) - wiring.junctions
    meeting = dict(enumerate(centres[first:], first))
    for index in range(wiring.junctions):
        end = wiring.wires[index].target
        if end in meeting and len(wires[index]) == 2:
            meeting[end] = (meeting[first + index][0], meeting[end][1])
    for index, wire in enumerate(wiring.wires):
        if wire.source in meeting:
            wires[index] = start_at(wires[index], *meeting[wire.source])
        if wire.target in meeting:
            wires[index] = end_at(wires[index], *meeting[wire.target])
    return wires


def _node_box(plan: Plan, index: int, centre: Point) -> NodeBox:
    node, size = plan.chart.nodes[index], plan.sizes[index]
    mark = (centre[0] + size.mark[0], centre[1] + size.mark[1])
    return NodeBox(node.id, node.shape, _box(size, centre), _lines(size, centre), mark)


def _box(size: Sized, centre: Point) -> Box:
    x, y = centre
    return Box(x - size.width / 2, y - size.height / 2, size.width, size.height)


def _lines(size: Sized, centre: Point) -> tuple[Line, ...]:
    x, y = centre
    return tuple(Line(line.text, x + line.x, y + line.y, line.width) for line in size.lines)


def _edge(
    plan: Plan,
    index: int,
    way: Way,
    wires: Sequence[Polyline],
    nodes: Sequence[NodeBox],
    label: LabelBox | None,
) -> EdgeLine:
    link, edge = plan.links[index], plan.edges[index]
    legs = [wires[wire] for wire in way.own]
    shared = joined(wires[wire] for wire in way.shared)
    if way.draws_shared:
        legs[-1], shared = joined((legs[-1], shared)), ()
    legs[0] = from_outline(legs[0], nodes[link.source])
    if shared:
        shared = to_outline(shared, nodes[link.target])
    else:
        legs[-1] = to_outline(legs[-1], nodes[link.target])
    if label:
        legs = [to_label(legs[0], label.box), from_label(legs[1], label.box)]
    return EdgeLine(edge.source, edge.target, tuple(legs), shared, index in plan.back, label)


def _label_box(
    plan: Plan, index: int, way: Way, wiring: Wiring, centres: Sequence[Point], heights: Heights
) -> LabelBox | None:
    """The label moved along its line, towards its question, as far as nothing else runs."""
    size = plan.labels[index]
    if size is None:
        return None
    row = wiring.items[way.label].row
    if row > wiring.items[plan.links[index].source].row:
        y = heights.free_above[row] + LABEL_CLEAR + size.height / 2
    else:
        y = heights.free_below[row] - LABEL_CLEAR - size.height / 2
    centre = (centres[way.label][0], y)
    return LabelBox(_box(size, centre), _lines(size, centre))
