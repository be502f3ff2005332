"""A legend for the charts: every shape, outline, mark and line with its words."""

from __future__ import annotations

from html import escape

from kbgen.draw import proportions as p
from kbgen.draw.chart import Node, Shape, Stretch, Tone
from kbgen.draw.drawing import Box
from kbgen.draw.marks import Mark, marks_of, symbol, use
from kbgen.draw.paths import number, shape_path
from kbgen.draw.svg import arrow_head, node_class

_PREFIX = "kb-legend"
_TEXT_X = 158.0
_ROW = 64.0
_WIDTH = 620.0
_BOX = Box(8.0, 0.0, 120.0, 44.0)

_SYMBOLS = (
    (Shape.TERMINATOR, "Start or end"),
    (Shape.PROCESS, "Instruction"),
    (Shape.MANUAL, "Manual operation, such as isolating or locking"),
    (Shape.DECISION, "Question: each line that leaves it carries an answer"),
    (Shape.INPUT, "Reading to be entered by hand"),
    (Shape.PREDEFINED, "Shared sequence: its steps stand inside the step"),
    (Shape.PREPARATION, "Temporary change, or its undoing"),
)
_STATES = (
    (Node("", Shape.PROCESS, "", "", stretch=Stretch.LIVE), "Equipment live while this is done"),
    (
        Node("", Shape.PROCESS, "", "", stretch=Stretch.SAFE),
        "Equipment isolated, locked and proved dead",
    ),
    (Node("", Shape.PROCESS, "", "", hazard=True), "A warning belongs to this step: read it first"),
    (Node("", Shape.TERMINATOR, "", "", tone=Tone.GOOD), "End: fault cleared"),
    (Node("", Shape.TERMINATOR, "", "", tone=Tone.HANDOVER), "End: hand over to someone else"),
)
_LINES = (
    ("lines", "Go on in the direction of the arrow"),
    ("lines back", "Go back to an earlier step (dashed)"),
)


def legend_svg() -> str:
    """The legend as one `<svg>` element; its ids start with `kb-legend`, so use it once a page."""
    rows: list[str] = []
    rows.append(_heading("Symbols of ISO 5807:1985", rows))
    for shape, words in _SYMBOLS:
        rows.append(_entry(Node("", shape, "", ""), words, rows))
    rows.append(_heading("Conventions of these charts, not of ISO 5807", rows))
    rows.append(_entry(Node("", Shape.DELAY, "", ""), "Wait: box with one rounded side", rows))
    rows.append(_note("Outlines and marks in a box:", rows))
    for node, words in _STATES:
        rows.append(_entry(node, words, rows))
    rows.append(_heading("Lines", rows))
    for name, words in _LINES:
        rows.append(_line(name, words, rows))
    rows.append(_joint("Lines that join lead to the same step", rows))
    height = number(_top(rows))
    symbols = "".join(symbol(mark, _PREFIX) for mark in Mark)
    return (
        f'<svg class="kb-chart kb-legend" role="group" viewBox="0 0 {number(_WIDTH)} {height}"'
        f' width="{number(_WIDTH)}" height="{height}" aria-labelledby="{_PREFIX}-t"'
        f' aria-describedby="{_PREFIX}-d"><title id="{_PREFIX}-t">Legend of the flowcharts</title>'
        f'<desc id="{_PREFIX}-d">What each shape, outline, mark and line means.</desc>'
        f"<defs>{arrow_head(_PREFIX)}{symbols}</defs>{''.join(rows)}</svg>"
    )


def _top(rows: list[str]) -> float:
    return len(rows) * _ROW


def _middle(rows: list[str]) -> float:
    return _top(rows) + _ROW / 2


def _words(words: str, x: float, y: float) -> str:
    return f'<text x="{number(x)}" y="{number(y)}">{escape(words, quote=False)}</text>'


def _heading(words: str, rows: list[str]) -> str:
    return f'<g class="heading">{_words(words, _BOX.x, _middle(rows) + p.BASELINE)}</g>'


def _note(words: str, rows: list[str]) -> str:
    return _words(words, _BOX.x, _middle(rows) + p.BASELINE)


def _entry(node: Node, words: str, rows: list[str]) -> str:
    y = _middle(rows)
    box = Box(_BOX.x, y - _BOX.height / 2, _BOX.width, _BOX.height)
    x = box.centre[0] - p.MARK / 2
    marks = "".join(use(mark, x, y - p.MARK / 2, _PREFIX) for mark in marks_of(node))
    drawn = f'<g class="{node_class(node)}">{shape_path(node.shape, box)}{marks}</g>'
    return drawn + _words(words, _TEXT_X, y + p.BASELINE)


def _line(name: str, words: str, rows: list[str]) -> str:
    y = _middle(rows)
    path = f'<path d="M{number(_BOX.x)} {number(y)}H{number(_BOX.right)}"/>'
    drawn = f'<g class="{name}" marker-end="url(#{_PREFIX}-a)">{path}</g>'
    return drawn + _words(words, _TEXT_X, y + p.BASELINE)


def _joint(words: str, rows: list[str]) -> str:
    x, y = number(_BOX.centre[0]), number(_middle(rows))
    path = f'<path d="M{number(_BOX.x)} {y}H{number(_BOX.right)}"/>'
    side = f'<g class="lines"><path d="M{x} {number(_top(rows) + 8)}V{y}"/></g>'
    dot = f'<g class="joints"><circle cx="{x}" cy="{y}" r="3"/></g>'
    drawn = f'<g class="lines" marker-end="url(#{_PREFIX}-a)">{path}</g>{side}{dot}'
    return drawn + _words(words, _TEXT_X, _middle(rows) + p.BASELINE)
