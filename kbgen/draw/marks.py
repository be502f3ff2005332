"""Small glyphs that say without colour what a node's colour says too. Own drawings, 22 px."""

from __future__ import annotations

from enum import Enum

from kbgen.draw.chart import Node, Stretch, Tone
from kbgen.draw.paths import number


class Mark(Enum):
    """A glyph by what it means."""

    HAZARD = "hazard"
    LIVE = "live"
    SAFE = "safe"
    GOOD = "good"
    HANDOVER = "handover"


_BODIES = {
    Mark.HAZARD: '<path class="back" d="M11 2 21 19.5H1z"/>'
    '<path class="ink" d="M10 8h2l-.4 6h-1.2zM10 15.4h2v2h-2z"/>',
    Mark.LIVE: '<path class="ink" d="M13 1 4 12.5h5.2L7.5 21 18 8.8h-6z"/>',
    Mark.SAFE: '<path class="ring" d="M7 10V7a4 4 0 0 1 8 0v3"/>'
    '<path class="ink" d="M4 10h14v10H4z"/>',
    Mark.GOOD: '<path class="ring" d="m4 12 5 5L18.500 5"/>',
    Mark.HANDOVER: '<path class="ring" d="M3 11h15M12 5l6 6-6 6"/>',
}


def marks_of(node: Node) -> tuple[Mark, ...]:
    """The glyphs a node shows, hazard first."""
    marks: list[Mark] = [Mark.HAZARD] if node.hazard else []
    if node.stretch is not Stretch.UNSTATED:
        marks.append(Mark.LIVE if node.stretch is Stretch.LIVE else Mark.SAFE)
    if node.tone is not Tone.PLAIN:
        marks.append(Mark.GOOD if node.tone is Tone.GOOD else Mark.HANDOVER)
    return tuple(marks)


def symbol(mark: Mark, prefix: str) -> str:
    """The glyph as a group with an id to be used by; `prefix` must be escaped already."""
    return f'<g id="{prefix}-{mark.value}" class="kb-mark {mark.value}">{_BODIES[mark]}</g>'


def use(mark: Mark, x: float, y: float, prefix: str) -> str:
    """One glyph with its top left corner at a place."""
    return f'<use href="#{prefix}-{mark.value}" x="{number(x)}" y="{number(y)}"/>'
