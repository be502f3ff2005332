"""Faults of a drawing, found by geometry that shares nothing with the layout.

A chart with a line through a box, or an answer on the wrong line, can send a person the wrong
way, so a drawing with a fault is not to be published.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import Enum
from itertools import islice, pairwise

from kbgen.draw.drawing import Box, Drawing, EdgeLine, Point, Polyline
from kbgen.draw.gate_geometry import Strips, on_outline, outline

MAX_WIDTH = 770.0
"""Widest chart in pixels that a tablet held upright shows without scrolling."""
ON_OUTLINE = 1.0
"""How far from the outline, in pixels, a line may end and still look attached."""
LONGEST_TO_LABEL = 480.0
"""How long, in pixels, the line from a question to one of its answers may be."""
SHORTEST_END = 9.0
"""Length in pixels of a last segment that still shows the arrow head whole."""
NODE_CLEAR = 2.0
"""A line nearer than this, in pixels, to a node or to another line's label seems to touch it."""
SAME_LINE = 3.0
"""Parallel lines nearer than this, in pixels, look like one."""


class Kind(Enum):
    """What is wrong."""

    TOO_WIDE = "chart wider than the page"
    OUTSIDE = "part outside the chart"
    NODES_OVERLAP = "nodes overlap"
    LABEL_ON_NODE = "label on a node"
    LABELS_OVERLAP = "label on a label"
    LINE_THROUGH_NODE = "line through a node"
    LINE_THROUGH_LABEL = "line through a label"
    LABEL_FAR = "label far from its question"
    LOOSE_END = "line that does not end at its node, its label or the line it joins"
    SLANTED = "line neither level nor upright"
    NO_ROOM_FOR_ARROW = "last segment shorter than the arrow head"
    LINES_COINCIDE = "two lines drawn on one another"


@dataclass(frozen=True)
class Fault:
    """One fault, and the node or edge it was found at."""

    kind: Kind
    where: str


def faults(drawing: Drawing) -> tuple[Fault, ...]:
    """All faults of a drawing; empty if it may be published."""
    labels = [edge for edge in drawing.edges if edge.label]
    boxes = [node.box for node in drawing.nodes] + [e.label.box for e in labels if e.label]
    names = [node.node for node in drawing.nodes] + [_name(edge) for edge in labels]
    strips = Strips(boxes)
    found = [*_page(drawing, boxes, names), *_overlaps(drawing, boxes, names, strips)]
    outlines = {node.node: outline(node.shape, node.box) for node in drawing.nodes}
    for edge in drawing.edges:
        found += _form(edge)
        found += _ends(edge, outlines)
        found += _obstacles(edge, boxes, names, len(drawing.nodes), strips)
    found += _trunks(drawing)
    found += _coinciding(drawing)
    return tuple(found)


def _name(edge: EdgeLine) -> str:
    return f"{edge.source} > {edge.target}"


def _page(drawing: Drawing, boxes: Sequence[Box], names: Sequence[str]) -> Iterator[Fault]:
    if drawing.width > MAX_WIDTH:
        yield Fault(Kind.TOO_WIDE, f"{drawing.width:g} px")
    for box, name in zip(boxes, names, strict=True):
        if box.x < 0 or box.y < 0 or box.right > drawing.width or box.bottom > drawing.height:
            yield Fault(Kind.OUTSIDE, name)
    for edge in drawing.edges:
        points = [point for leg in edge.legs for point in leg]
        if not all(0 <= x <= drawing.width and 0 <= y <= drawing.height for x, y in points):
            yield Fault(Kind.OUTSIDE, _name(edge))


def _overlaps(
    drawing: Drawing, boxes: Sequence[Box], names: Sequence[str], strips: Strips
) -> Iterator[Fault]:
    pairs = {
        (index, other)
        for index, box in enumerate(boxes)
        for y in (box.y, box.bottom)
        for other in strips.near((box.x, y), (box.right, y), 0.0)
        if other != index
    }
    count = len(drawing.nodes)
    for a, b in sorted(pairs):
        kinds = (Kind.NODES_OVERLAP, Kind.LABEL_ON_NODE, Kind.LABELS_OVERLAP)
        yield Fault(kinds[(a >= count) + (b >= count)], f"{names[a]}, {names[b]}")


def _form(edge: EdgeLine) -> Iterator[Fault]:
    for leg in edge.legs:
        if any(a[0] != b[0] and a[1] != b[1] for a, b in pairwise(leg)):
            yield Fault(Kind.SLANTED, _name(edge))
    if not edge.shared and _length(edge.legs[-1][-2:]) < SHORTEST_END:
        yield Fault(Kind.NO_ROOM_FOR_ARROW, _name(edge))
    if edge.label and _length(edge.legs[0]) > LONGEST_TO_LABEL:
        yield Fault(Kind.LABEL_FAR, _name(edge))


def _length(line: Polyline) -> float:
    return sum(abs(b[0] - a[0]) + abs(b[1] - a[1]) for a, b in pairwise(line))


def _ends(edge: EdgeLine, outlines: dict[str, Polyline]) -> Iterator[Fault]:
    end = edge.shared[-1] if edge.shared else edge.legs[-1][-1]
    leaves = on_outline(edge.legs[0][0], outlines[edge.source], ON_OUTLINE)
    enters = on_outline(end, outlines[edge.target], ON_OUTLINE)
    if edge.label is None:
        whole = len(edge.legs) == 1
    else:
        box = edge.label.box
        whole = len(edge.legs) == 2 and all(
            box.x <= x <= box.right and min(abs(y - box.y), abs(y - box.bottom)) <= ON_OUTLINE
            for x, y in (edge.legs[0][-1], edge.legs[1][0])
        )
    if not (leaves and enters and whole):
        yield Fault(Kind.LOOSE_END, _name(edge))


def _obstacles(
    edge: EdgeLine, boxes: Sequence[Box], names: Sequence[str], count: int, strips: Strips
) -> Iterator[Fault]:
    """Lines through boxes. A line may enter the box, not the outline, of the node it ends at."""
    segments = [pair for leg in edge.legs for pair in pairwise(leg)]
    last = len(segments) - 1
    for place, (a, b) in enumerate(segments):
        for index in strips.near(a, b, NODE_CLEAR):
            name, box = names[index], boxes[index]
            if index >= count:
                if name != _name(edge) or _crosses(a, b, box):
                    yield Fault(Kind.LINE_THROUGH_LABEL, f"{_name(edge)}, {name}")
                continue
            leaves = place == 0 and name == edge.source and not _inside(b, box)
            enters = place == last and name == edge.target and not _inside(a, box)
            if not (leaves or enters):
                yield Fault(Kind.LINE_THROUGH_NODE, f"{_name(edge)}, {name}")


def _crosses(a: Point, b: Point, box: Box) -> bool:
    """Whether a segment runs inside a box, and not just along or up to its border."""
    return (
        min(a[0], b[0]) < box.right - ON_OUTLINE
        and max(a[0], b[0]) > box.x + ON_OUTLINE
        and min(a[1], b[1]) < box.bottom - ON_OUTLINE
        and max(a[1], b[1]) > box.y + ON_OUTLINE
    )


def _inside(point: Point, box: Box) -> bool:
    return box.x < point[0] < box.right and box.y < point[1] < box.bottom


def _trunks(drawing: Drawing) -> Iterator[Fault]:
    """Every edge that joins another must meet a line that leads on to the same target."""
    trunks: dict[str, list[Polyline]] = {}
    for edge in drawing.edges:
        if not edge.shared:
            trunks.setdefault(edge.target, []).append(edge.legs[-1])
    for edge in drawing.edges:
        if edge.shared and not any(
            edge.legs[-1][-1] == edge.shared[0] and _ends_with(trunk, edge.shared)
            for trunk in trunks.get(edge.target, ())
        ):
            yield Fault(Kind.LOOSE_END, _name(edge))


def _ends_with(line: Polyline, tail: Polyline) -> bool:
    rest = len(tail) - 1
    if line[-rest:] != tail[1:] or len(line) <= rest:
        return False
    a, b, (x, y) = line[-rest - 1], line[-rest], tail[0]
    between_x = min(a[0], b[0]) <= x <= max(a[0], b[0])
    return between_x and min(a[1], b[1]) <= y <= max(a[1], b[1])


def _coinciding(drawing: Drawing) -> Iterator[Fault]:
    """Parallel segments of edges with different targets, too near to tell apart."""
    for axis in (0, 1):
        found = sorted(
            (a[axis], min(a[1 - axis], b[1 - axis]), max(a[1 - axis], b[1 - axis]), index)
            for index, edge in enumerate(drawing.edges)
            for leg in edge.legs
            for a, b in pairwise(leg)
            if a[axis] == b[axis]
        )
        yield from _too_near(found, drawing.edges)


def _too_near(
    found: Sequence[tuple[float, float, float, int]], edges: Sequence[EdgeLine]
) -> Iterator[Fault]:
    for place, (at, low, high, index) in enumerate(found):
        for other_at, other_low, other_high, other in islice(found, place + 1, None):
            if other_at - at >= SAME_LINE:
                break
            beside = other_low < high - SAME_LINE and low < other_high - SAME_LINE
            if beside and edges[index].target != edges[other].target:
                yield Fault(Kind.LINES_COINCIDE, f"{_name(edges[index])}, {_name(edges[other])}")
