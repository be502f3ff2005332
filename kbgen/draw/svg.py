"""A drawing as inline SVG: links to the steps, classes for every colour, no script, no style."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from kbgen.draw import proportions as p
from kbgen.draw.chart import Chart, Node, Shape, Stretch, Tone
from kbgen.draw.drawing import Drawing, EdgeLine, Line, NodeBox, Point
from kbgen.draw.marks import Mark, marks_of, symbol, use
from kbgen.draw.measure import space_width
from kbgen.draw.paths import number, route, shape_path
from kbgen.draw.wording import spoken_name

_STRETCH_CLASS = {Stretch.UNSTATED: "", Stretch.LIVE: " live", Stretch.SAFE: " safe"}
_HALF_SPACE = space_width(p.FONT) / 2
_TONE_CLASS = {Tone.PLAIN: "", Tone.GOOD: " good", Tone.HANDOVER: " handover"}


def svg(chart: Chart, drawing: Drawing) -> str:
    """The chart as one `<svg>` element; `drawing` must be its layout."""
    prefix = escape(chart.id_prefix, quote=True)
    width, height = number(drawing.width), number(drawing.height)
    nodes = {node.id: node for node in chart.nodes}
    return (
        f'<svg class="kb-chart" role="group" viewBox="0 0 {width} {height}"'
        f' width="{width}" height="{height}" aria-labelledby="{prefix}-t"'
        f' aria-describedby="{prefix}-d">'
        f'<title id="{prefix}-t">{escape(chart.title, quote=False)}</title>'
        f'<desc id="{prefix}-d">{escape(chart.description, quote=False)}</desc>'
        f"{_definitions(chart, prefix)}"
        f"{_edges(drawing, prefix)}"
        f"{''.join(_node(nodes[box.node], box, prefix) for box in drawing.nodes)}"
        f"</svg>"
    )


def _definitions(chart: Chart, prefix: str) -> str:
    used = {mark for node in chart.nodes for mark in marks_of(node)}
    symbols = "".join(symbol(mark, prefix) for mark in Mark if mark in used)
    return f"<defs>{arrow_head(prefix)}{symbols}</defs>"


def arrow_head(prefix: str) -> str:
    """The marker at the end of every line; `prefix` must be escaped already."""
    return (
        f'<marker id="{prefix}-a" class="tip" viewBox="0 0 10 10" refX="9.5" refY="5"'
        ' markerWidth="10" markerHeight="10" markerUnits="userSpaceOnUse" orient="auto">'
        '<path d="M0 .8 10 5 0 9.2z"/></marker>'
    )


def _edges(drawing: Drawing, prefix: str) -> str:
    """Lines under the nodes, then the dots where lines join, then the answers."""
    tip = f' marker-end="url(#{prefix}-a)"'
    groups = []
    for back, name in ((False, "lines"), (True, "lines back")):
        edges = [edge for edge in drawing.edges if edge.back is back]
        groups.append(_group(name + '"' + tip, (_path(e) for e in edges if not e.shared)))
        groups.append(_group(name + '"', (_path(e) for e in edges if e.shared)))
    joints = sorted({edge.shared[0] for edge in drawing.edges if edge.shared})
    groups.append(_group('joints"', (_dot(joint) for joint in joints)))
    answers = (_text(edge.label.lines, p.LABEL_LINE) for edge in drawing.edges if edge.label)
    groups.append(_group('answers"', answers))
    return "".join(groups)


def _group(opening: str, parts: Iterable[str]) -> str:
    """Parts in a group whose class attribute `opening` begins; nothing if there are none."""
    content = "".join(parts)
    return f'<g class="{opening}>{content}</g>' if content else ""


def _path(edge: EdgeLine) -> str:
    return f'<path d="{"".join(route(leg) for leg in edge.legs)}"/>'


def _dot(point: Point) -> str:
    return f'<circle cx="{number(point[0])}" cy="{number(point[1])}" r="3"/>'


def _node(node: Node, box: NodeBox, prefix: str) -> str:
    return (
        f'<a class="{node_class(node)}" href="{escape(node.href, quote=True)}"'
        f' aria-label="{escape(spoken_name(node), quote=True)}">'
        f"{shape_path(node.shape, box.box)}"
        f"{''.join(use(mark, x, y, prefix) for mark, x, y in _mark_places(node, box))}"
        f"{_text(box.lines, p.LINE, node.number)}</a>"
    )


def node_class(node: Node) -> str:
    """Class names that carry a node's stretch and tone to the style sheet."""
    return f"node{_STRETCH_CLASS[node.stretch]}{_TONE_CLASS[node.tone]}"


def _mark_places(node: Node, box: NodeBox) -> Iterable[tuple[Mark, float, float]]:
    """Top left corner of each mark: above the words in a decision, else left of them."""
    marks = marks_of(node)
    x, y = box.mark
    for place, mark in enumerate(marks):
        if node.shape is Shape.DECISION:
            yield mark, x + place * p.MARK_STEP, y
        else:
            yield mark, x, y + place * p.MARK_STEP


def _text(lines: tuple[Line, ...], height: float, lead: str = "") -> str:
    """Centred lines; `lead` is set bold before the first.

    Each further line starts with a space, so that the words of one text stay apart where they
    are read out or searched; it is set back by half of that space.
    """
    if not lines:
        return ""
    first = lines[0]
    strong = f'<tspan class="number">{escape(lead, quote=False)}</tspan> ' if lead else ""
    further = f'<tspan x="{number(first.x - _HALF_SPACE)}" dy="{number(height)}"> '
    rest = "".join(f"{further}{escape(line.text, quote=False)}</tspan>" for line in lines[1:])
    words = f"{strong}{escape(first.text, quote=False)}{rest}"
    return f'<text x="{number(first.x)}" y="{number(first.y)}">{words}</text>'
