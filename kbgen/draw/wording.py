"""The words that stand for what a chart shows by shape, outline or mark."""

from __future__ import annotations

from kbgen.draw.chart import Node, Shape, Stretch, Tone

SHAPE_WORDS = {
    Shape.TERMINATOR: "start or end",
    Shape.PROCESS: "instruction",
    Shape.MANUAL: "manual operation",
    Shape.DECISION: "question",
    Shape.INPUT: "reading to enter",
    Shape.PREDEFINED: "shared sequence",
    Shape.PREPARATION: "temporary change or its undoing",
    Shape.DELAY: "wait",
}
STRETCH_WORDS = {
    Stretch.UNSTATED: "",
    Stretch.LIVE: "equipment live",
    Stretch.SAFE: "equipment isolated and proved dead",
}
TONE_WORDS = {Tone.PLAIN: "", Tone.GOOD: "fault cleared", Tone.HANDOVER: "hand over"}
HAZARD_WORDS = "warning"
REPEAT_WORDS = "repeat"
"""Label of a line without one that leads from a node back to it."""


def state_words(node: Node) -> tuple[str, ...]:
    """What the marks of a node say, hazard first."""
    hazard = HAZARD_WORDS if node.hazard else ""
    words = (hazard, STRETCH_WORDS[node.stretch], TONE_WORDS[node.tone])
    return tuple(word for word in words if word)


def spoken_name(node: Node) -> str:
    """Accessible name of a node: its number and words as shown, then what its marks say."""
    shown = f"{node.number} {node.text}".strip()
    words = state_words(node)
    return f"{shown} ({', '.join(words)})" if words else shown
