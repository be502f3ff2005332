"""From the engine's raw places to the finished drawing."""

from __future__ import annotations

from collections.abc import Sequence

from kbgen.draw import proportions as p
from kbgen.draw.chart import Shape
from kbgen.draw.drawing import Box, Drawing, EdgeLine, LabelBox, Line, NodeBox, Point, Polyline
from kbgen.draw.engine import Item, Placed
from kbgen.draw.heights import CUT_ABOVE, LABEL_CLEAR, Heights, Row, level_lines, respaced
from kbgen.draw.lanes import with_lanes
from kbgen.draw.lines import (
    SMALL_STEP,
    from_label,
    from_outline,
    joined,
    squared,
    to_label,
    to_outline,
)
from kbgen.draw.meeting import met_early
from kbgen.draw.sides import Sides
from kbgen.draw.sizes import Sized
from kbgen.draw.wiring import Plan, Way, Wiring


def assemble(plan: Plan, wiring: Wiring, placed: Placed) -> Drawing:
    """Space the rows, put labels beside their questions, and end each line at an outline."""
    wiring, placed = with_lanes(wiring, _squared(placed, wiring))
    placed = _sided(placed, plan, wiring)
    heights = _heights(wiring.items, len(plan.sizes), placed)
    left = p.MARGIN - _leftmost(wiring.items, placed)
    centres = [(x + left, heights.at(y)) for x, y in placed.centres]
    wires = [_moved(wire, heights, left) for wire in placed.wires]
    nodes = tuple(_node_box(plan, index, centres[index]) for index in range(len(plan.sizes)))
    edges = met_early(
        [
            _edge(plan, index, way, wires, nodes, label)
            for index, way in enumerate(wiring.ways)
            for label in [_label_box(plan, index, wiring, centres, wires, heights)]
        ]
    )
    height = heights.rows[-1].bottom + p.MARGIN
    width = _rightmost(nodes, edges) + p.MARGIN
    return Drawing(width, height, nodes, edges, _gaps(heights, edges))


def _gaps(heights: Heights, edges: Sequence[EdgeLine]) -> tuple[float, ...]:
    """Heights just above rows of nodes, over the arrow heads, where no label is in the way."""
    labels = sorted((e.label.box.y, e.label.box.bottom) for e in edges if e.label)
    cuts = (row.top - CUT_ABOVE for row in heights.rows[1:] if row.arrows)
    return tuple(y for y in cuts if not any(top <= y <= bottom for top, bottom in labels))


def _squared(placed: Placed, wiring: Wiring) -> Placed:
    """Whole pixels across, lines level or upright, and meeting in one point at a junction."""
    centres = [(float(round(x)), y) for x, y in placed.centres]
    first = len(centres) - wiring.junctions
    for index, wire in enumerate(wiring.wires[: wiring.junctions]):
        straight = abs(placed.wires[index][0][0] - placed.wires[index][-1][0]) < SMALL_STEP
        if straight and wire.target >= first and len(placed.wires[index]) == 2:
            centres[wire.target] = (centres[first + index][0], centres[wire.target][1])
    wires = []
    for wire, line in zip(wiring.wires, placed.wires, strict=True):
        start = centres[wire.source] if wire.source >= first else None
        end = centres[wire.target] if wire.target >= first else None
        wires.append(squared(line, start, end))
    return Placed(tuple(centres), tuple(wires))


def _sided(placed: Placed, plan: Plan, wiring: Wiring) -> Placed:
    """Lines led to the sides of nodes where there is room; decisions first."""
    boxes = [
        Box(x - item.width / 2, y - item.height / 2, item.width, item.height)
        for item, (x, y) in zip(wiring.items, placed.centres, strict=True)
    ]
    wires = list(placed.wires)
    sides = Sides(boxes[: len(boxes) - wiring.junctions], wires)
    nodes = plan.chart.nodes
    for wire, line in zip(wiring.wires, wires, strict=True):
        sides.note_port(*line[0], boxes[wire.source])
        sides.note_port(*line[-1], boxes[wire.target])
    for index, wire in enumerate(wiring.wires):
        if wire.source < len(nodes) and nodes[wire.source].shape is Shape.DECISION:
            wires[index] = sides.leaving(wires[index], boxes[wire.source])
    for index, wire in enumerate(wiring.wires):
        if wire.target < len(nodes):
            wires[index] = sides.entering(wires[index], boxes[wire.target])
    return Placed(placed.centres, tuple(wires))


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
    boxes = min(x - item.width / 2 for item, (x, _) in zip(items, placed.centres, strict=True))
    return float(min([boxes, *(x for wire in placed.wires for x, _ in wire)]))


def _rightmost(nodes: Sequence[NodeBox], edges: Sequence[EdgeLine]) -> float:
    right = max(node.box.right for node in nodes)
    for edge in edges:
        right = max(right, *(x for leg in edge.legs for x, _ in leg))
        if edge.label:
            right = max(right, edge.label.box.right)
    return right


def _moved(wire: Polyline, heights: Heights, left: float) -> Polyline:
    return tuple((x + left, heights.at(y)) for x, y in wire)


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
    plan: Plan,
    index: int,
    wiring: Wiring,
    centres: Sequence[Point],
    wires: Sequence[Polyline],
    heights: Heights,
) -> LabelBox | None:
    """The label moved along its line, towards its question, as far as nothing else runs."""
    size, way = plan.labels[index], wiring.ways[index]
    if size is None:
        return None
    x = centres[way.label][0]
    row = wiring.items[way.label].row
    if row > wiring.items[plan.links[index].source].row:
        y = heights.free_above[row] + LABEL_CLEAR + size.height / 2
    else:
        y = heights.free_below[row] - LABEL_CLEAR - size.height / 2
    ends = sorted((wires[way.own[0]][-1][0], wires[way.own[1]][0][0]))
    reach = size.width / 2 - 2
    centre = (min(max(x, ends[1] - reach), ends[0] + reach), y)
    return LabelBox(_box(size, centre), _lines(size, centre))
