"""The abstract chart: nodes with a shape and edges with a label, and nothing about place."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Shape(Enum):
    """What a node asks for. All but DELAY are symbols of ISO 5807:1985."""

    TERMINATOR = "terminator"
    PROCESS = "process"
    MANUAL = "manual"
    DECISION = "decision"
    INPUT = "input"
    PREDEFINED = "predefined"
    PREPARATION = "preparation"
    DELAY = "delay"


class Stretch(Enum):
    """Whether the equipment is live, or proved dead and locked, while a node is worked on."""

    UNSTATED = "unstated"
    LIVE = "live"
    SAFE = "safe"


class Tone(Enum):
    """How a terminator ends the work: not stated, fault cleared, or handed to someone else."""

    PLAIN = "plain"
    GOOD = "good"
    HANDOVER = "handover"


@dataclass(frozen=True)
class Node:
    """One box. `hazard` puts a warning triangle in it; `number` is the step number shown."""

    id: str
    shape: Shape
    text: str
    href: str
    number: str = ""
    stretch: Stretch = Stretch.UNSTATED
    tone: Tone = Tone.PLAIN
    hazard: bool = False


@dataclass(frozen=True)
class Edge:
    """A line from one node to another; the label is the answer that leads along it."""

    source: str
    target: str
    label: str = ""


@dataclass(frozen=True)
class Chart:
    """A whole flowchart. `id_prefix` keeps ids unique when several charts share a page."""

    title: str
    description: str
    start: str
    nodes: tuple[Node, ...]
    edges: tuple[Edge, ...]
    id_prefix: str


def check_chart(chart: Chart) -> None:
    """Raise ValueError if ids repeat, or the start or an edge names a node that is absent."""
    ids = {node.id for node in chart.nodes}
    if len(ids) != len(chart.nodes):
        raise ValueError(f"chart {chart.title!r} has two nodes with one id")
    named = [chart.start, *(end for edge in chart.edges for end in (edge.source, edge.target))]
    absent = sorted(set(named) - ids)
    if absent:
        raise ValueError(f"chart {chart.title!r} names absent nodes: {', '.join(absent)}")


def merged_edges(chart: Chart) -> tuple[Edge, ...]:
    """Edges in order of first appearance, those between the same two nodes made one."""
    labels: dict[tuple[str, str], list[str]] = {}
    for edge in chart.edges:
        found = labels.setdefault((edge.source, edge.target), [])
        if edge.label and edge.label not in found:
            found.append(edge.label)
    return tuple(Edge(s, t, " / ".join(found)) for (s, t), found in labels.items())
