"""A chart in words: one entry a node, in the order in which a reader meets them."""

from __future__ import annotations

from dataclasses import dataclass

from kbgen.draw.chart import Chart, Node, Shape, merged_edges
from kbgen.draw.wording import spoken_name


@dataclass(frozen=True)
class Entry:
    """A node in words: where it links to, and its sentence."""

    href: str
    text: str


def outline(chart: Chart) -> tuple[Entry, ...]:
    """One entry a node, the start first and then in chart order.

    "3 Is the coil iced? Yes: go to 4; No: go to 7." A node without a number is named by its
    words instead.
    """
    nodes = {node.id: node for node in chart.nodes}
    leaving: dict[str, list[str]] = {node.id: [] for node in chart.nodes}
    for edge in merged_edges(chart):
        goal = f"go to {_short_name(nodes[edge.target])}"
        leaving[edge.source].append(f"{edge.label}: {goal}" if edge.label else goal)
    ordered = sorted(chart.nodes, key=lambda node: node.id != chart.start)
    return tuple(Entry(node.href, _sentence(node, leaving[node.id])) for node in ordered)


def _short_name(node: Node) -> str:
    return node.number or f"“{node.text}”"


def _sentence(node: Node, goals: list[str]) -> str:
    name = spoken_name(node)
    if not goals:
        return f"{name}. End." if node.shape is Shape.TERMINATOR else f"{name}."
    joined = "; ".join(goals)
    stop = "" if name.endswith(("?", ".", "!")) else "."
    return f"{name}{stop} {joined[0].upper()}{joined[1:]}."
