"""SVG path data: outlines of the shapes, and lines with rounded corners."""

from __future__ import annotations

from kbgen.draw import proportions as p
from kbgen.draw.chart import Shape
from kbgen.draw.drawing import Box, Point, Polyline

RADIUS = 6.0


def number(value: float) -> str:
    """A length with at most one decimal, as short as can be."""
    tenths = round(value * 10)
    return str(tenths // 10) if tenths % 10 == 0 else str(tenths / 10)


def shape_path(shape: Shape, box: Box) -> str:
    """The outline of a node as an SVG element of class `shape`."""
    x, y, w, h = number(box.x), number(box.y), number(box.width), number(box.height)
    if shape is Shape.TERMINATOR:
        return _rect(x, y, w, h, number(min(p.CORNER, box.height / 2)))
    if shape is Shape.PROCESS:
        return _rect(x, y, w, h, "2")
    return f'<path class="shape" d="{_OUTLINES[shape](box)}"/>'


def _rect(x: str, y: str, w: str, h: str, r: str) -> str:
    return f'<rect class="shape" x="{x}" y="{y}" width="{w}" height="{h}" rx="{r}"/>'


def _decision(box: Box) -> str:
    half, high = number(box.width / 2), number(box.height / 2)
    return f"M{number(box.x)} {number(box.centre[1])}l{half}-{high} {half} {high}-{half} {high}z"


def _manual(box: Box) -> str:
    s = number(p.SLANT)
    inner = number(box.width - 2 * p.SLANT)
    return (
        f"M{number(box.x)} {number(box.y)}h{number(box.width)}l-{s} {number(box.height)}h-{inner}z"
    )


def _input(box: Box) -> str:
    low = number(box.y + p.SLANT)
    return (
        f"M{number(box.x)} {low}l{number(box.width)}-{number(p.SLANT)}"
        f"v{number(box.height)}h-{number(box.width)}z"
    )


def _predefined(box: Box) -> str:
    w, h, bar = number(box.width), number(box.height), number(p.BAR)
    between = number(box.width - 2 * p.BAR)
    return f"M{number(box.x)} {number(box.y)}h{w}v{h}h-{w}zm{bar} 0v{h}m{between}-{h}v{h}"


def _preparation(box: Box) -> str:
    d, half = number(p.POINT), number(box.height / 2)
    flat = number(box.width - 2 * p.POINT)
    return (
        f"M{number(box.x)} {number(box.centre[1])}l{d}-{half}h{flat}l{d} {half}-{d} {half}h-{flat}z"
    )


def _delay(box: Box) -> str:
    flat, h = number(box.width - p.BULGE), number(box.height)
    arc = f"a{number(p.BULGE)} {number(box.height / 2)} 0 0 1 0 {h}"
    return f"M{number(box.x)} {number(box.y)}h{flat}{arc}h-{flat}z"


_OUTLINES = {
    Shape.DECISION: _decision,
    Shape.MANUAL: _manual,
    Shape.INPUT: _input,
    Shape.PREDEFINED: _predefined,
    Shape.PREPARATION: _preparation,
    Shape.DELAY: _delay,
}


def route(line: Polyline) -> str:
    """Path data of a line of level and upright segments, its corners rounded."""
    data = [f"M{number(line[0][0])} {number(line[0][1])}"]
    for before, corner, after in zip(line, line[1:], line[2:], strict=False):
        data.append(_corner(before, corner, after))
    data.append(_straight(line[-2], line[-1]))
    return "".join(data)


def _straight(start: Point, end: Point) -> str:
    return f"H{number(end[0])}" if start[1] == end[1] else f"V{number(end[1])}"


def _corner(before: Point, corner: Point, after: Point) -> str:
    """A straight up to the corner and a quarter turn, no larger than half of either arm."""
    (x0, y0), (x, y), (x1, y1) = before, corner, after
    radius = min(RADIUS, (abs(x - x0) + abs(y - y0)) / 2, (abs(x1 - x) + abs(y1 - y)) / 2)
    ends = f"Q{number(x)} {number(y)} "
    if y0 == y:
        near = x - radius if x > x0 else x + radius
        far = y + radius if y1 > y else y - radius
        return f"H{number(near)}{ends}{number(x)} {number(far)}"
    near = y - radius if y > y0 else y + radius
    far = x + radius if x1 > x else x - radius
    return f"V{number(near)}{ends}{number(far)} {number(y)}"
