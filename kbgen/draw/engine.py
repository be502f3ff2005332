"""The layout engine behind one function: sizes and rows in, places and lines out."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from graphlay import _native

from kbgen.draw.drawing import Point


@dataclass(frozen=True)
class Item:
    """Something to be placed: its size in pixels and its row."""

    width: float
    height: float
    row: int


@dataclass(frozen=True)
class Wire:
    """A line between two items by index. `up` marks one that leads to a higher row."""

    source: int
    target: int
    up: bool
    weight: float = 1.0


@dataclass(frozen=True)
class Options:
    """What the engine may vary between attempts."""

    effort: str = "fast"
    compact_rounds: int = 0
    node_gap: float = 20.0
    lane_gap: float = 12.0


@dataclass(frozen=True)
class Placed:
    """Centre of each item, and the corner points of each wire from source to target."""

    centres: tuple[Point, ...]
    wires: tuple[tuple[Point, ...], ...]


@lru_cache(maxsize=32)
def _options(options: Options) -> str:
    return json.dumps(
        {
            "direction": "topbottom",
            "effort": options.effort,
            "spacing": {
                "layer_gap": 60.0,
                "node_gap": options.node_gap,
                "dummy_gap": options.lane_gap,
                "port_gap": 16.0,
                "stub": 10.0,
                "port_stroke_clear": 10.0,
            },
            "routing": {
                "port_sides": "facing_only",
                "bundle_parallel": False,
                "centre_ports": "round",
            },
            "coords": {
                "placement": "brandes_koepf",
                "branch_bands": False,
                "branch_style": "free",
            },
            "compaction": {"mode": "priority"},
            "labels": {"reservation": "never"},
            "tuning": {
                "order": {"kick_rounds": 0},
                "compaction": {
                    "offset_rounds": options.compact_rounds,
                    "refine_rounds": options.compact_rounds,
                },
            },
        }
    )


def place(items: Sequence[Item], wires: Sequence[Wire], options: Options) -> Placed:
    """Lay the items out in their rows from top to bottom and route the wires at right angles.

    Raises graphlay.GraphlayError if the engine rejects the graph.
    """
    nodes = ",".join(
        f'{{"size":{{"width":{item.width},"height":{item.height}}},"shape":"box",'
        f'"rank":{{"fixed":{item.row}}}}}'
        for item in items
    )
    edges = ",".join(
        f'{{"source":{wire.source},"target":{wire.target},"weight":{wire.weight},'
        f'"reverse_for_ranking":{"true" if wire.up else "false"}}}'
        for wire in wires
    )
    request = (
        f'{{"graph":{{"nodes":[{nodes}],"edges":[{edges}]}},"preset":"layered",'
        f'"options":{_options(options)}}}'
    )
    reply = json.loads(_native.layout(request))
    return Placed(
        tuple((node["center"]["x"], node["center"]["y"]) for node in reply["nodes"]),
        tuple(tuple((q["x"], q["y"]) for q in edge["points"]) for edge in reply["edges"]),
    )
