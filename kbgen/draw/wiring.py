"""What the engine is given: nodes, labels and junctions as items, and the wires between them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from kbgen.draw.chart import Chart, Edge
from kbgen.draw.engine import Item, Wire
from kbgen.draw.joins import Joins, Run, joins
from kbgen.draw.ranks import Link, Ranks
from kbgen.draw.sizes import Sized

_MAIN, _LONG, _LOOP = 4.0, 1.0, 0.2
"""How strongly the engine pulls a wire straight: beside its source, further on, on a way back."""
JUNCTION = 2.0
"""Size of a junction, in pixels."""


@dataclass(frozen=True)
class Plan:
    """A chart measured, with its merged edges; `labels` and `links` go with the edges."""

    chart: Chart
    edges: tuple[Edge, ...]
    sizes: tuple[Sized, ...]
    labels: tuple[Sized | None, ...]
    links: tuple[Link, ...]
    back: frozenset[int]


@dataclass(frozen=True)
class Way:
    """An edge by wires: to its label if it has one, on to its target or the first junction,
    then the wires it shares with others. `draws_shared` if it is the one to draw those."""

    label: int
    """Item of its label, -1 without one."""
    own: tuple[int, ...]
    shared: tuple[int, ...]
    draws_shared: bool


@dataclass(frozen=True)
class Wiring:
    """Items: the nodes, then labels, then `junctions` of them. The first wires lead away from
    the junctions, one each. `long` are edges, each with its target, still without a wire from
    their label on."""

    items: tuple[Item, ...]
    wires: tuple[Wire, ...]
    ways: tuple[Way, ...]
    junctions: int
    long: tuple[tuple[int, int], ...]


def wire_up(plan: Plan, ranks: Ranks, padding: float, longest: int) -> Wiring:
    """Items and wires for a chart whose rows are known; `padding` is added to all widths.

    Edges with a label that pass more than `longest` rows are left for lanes.
    """
    items = [
        Item(size.width + padding, size.height, row)
        for size, row in zip(plan.sizes, ranks.nodes, strict=True)
    ]
    labels: list[int] = []
    for size, row in zip(plan.labels, ranks.labels, strict=True):
        labels.append(len(items) if size else -1)
        if size:
            items.append(Item(size.width + padding, size.height, row))
    runs = _runs(plan, ranks)
    long = _long(plan, runs, longest)
    met = joins([None if index in long else run for index, run in enumerate(runs)])
    base = len(items)
    items += [Item(JUNCTION, JUNCTION, row) for row in met.rows]
    wires = _trunks(met, base, items)
    ways: list[Way] = []
    heads = set(range(len(met.rows))) - set(met.following)
    for index, (link, label, junction) in enumerate(
        zip(plan.links, labels, met.first, strict=True)
    ):
        goal = -1 if index in long else link.target if junction < 0 else base + junction
        stops = (link.source, label, goal)
        own = _own_wires(stops, items, wires, index in plan.back)
        ways.append(Way(label, own, _shared(met, junction), junction in heads))
        heads.discard(junction)
    left = tuple((index, plan.links[index].target) for index in sorted(long))
    return Wiring(tuple(items), tuple(wires), tuple(ways), len(met.rows), left)


def _long(plan: Plan, runs: Sequence[Run], longest: int) -> frozenset[int]:
    """Edges to be routed in lanes. The shortest way forward to each node is not among them, so
    that the engine is given a chart that hangs together."""
    rows = [abs(run.end - run.start) for run in runs]
    nearest: dict[int, int] = {}
    for index, run in enumerate(runs):
        known = nearest.get(run.target)
        if index not in plan.back and (known is None or rows[index] < rows[known]):
            nearest[run.target] = index
    return frozenset(
        index
        for index, run in enumerate(runs)
        if rows[index] > longest and plan.labels[index] and nearest.get(run.target) != index
    )


def _runs(plan: Plan, ranks: Ranks) -> list[Run]:
    return [
        Run(ranks.nodes[link.source] if row < 0 else row, link.target, ranks.nodes[link.target])
        for link, row in zip(plan.links, ranks.labels, strict=True)
    ]


def _trunks(met: Joins, base: int, items: list[Item]) -> list[Wire]:
    """The wire that leaves each junction."""
    wires: list[Wire] = []
    for junction, (following, target) in enumerate(zip(met.following, met.targets, strict=True)):
        end = target if following < 0 else base + following
        up = items[end].row < met.rows[junction]
        wires.append(Wire(base + junction, end, up, _LOOP if up else _LONG))
    return wires


def _own_wires(
    stops: tuple[int, int, int], items: list[Item], wires: list[Wire], back: bool
) -> tuple[int, ...]:
    """Add the wires of one edge as far as it runs alone, and return their indices."""
    present = [stop for stop in stops if stop >= 0]
    added: list[int] = []
    for place, (a, b) in enumerate(pairwise(present)):
        weight = _LOOP if back else _LONG if place else _MAIN
        added.append(len(wires))
        wires.append(Wire(a, b, items[b].row < items[a].row, weight))
    return tuple(added)


def _shared(met: Joins, junction: int) -> tuple[int, ...]:
    """The wires from a junction to its target."""
    found: list[int] = []
    while junction >= 0:
        found.append(junction)
        junction = met.following[junction]
    return tuple(found)
