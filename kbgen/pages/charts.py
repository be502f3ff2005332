"""Route -> flowchart."""

from __future__ import annotations

from collections.abc import Mapping

from kbgen.analysis.energy import States
from kbgen.draw.chart import Chart, Edge, Node, Shape, Stretch, Tone
from kbgen.model.procedure import Procedure
from kbgen.model.shared import Shared
from kbgen.model.steps import (
    Ask,
    Change,
    Energise,
    Finish,
    Isolate,
    Lock,
    Prove,
    Read,
    Release,
    Run,
    ShutDown,
    Step,
    Undo,
    Unlock,
    Wait,
)
from kbgen.model.words import EnergyState, Result
from kbgen.pages.addresses import step_anchor
from kbgen.pages.fill import fill
from kbgen.pages.texts import main_text
from kbgen.prose import plain
from kbgen.route.route import Place, Route

Power = Mapping[str, Mapping[str, States]]

_SHAPES: dict[type, Shape] = {
    Ask: Shape.DECISION,
    Read: Shape.INPUT,
    Run: Shape.PREDEFINED,
    Wait: Shape.DELAY,
    Finish: Shape.TERMINATOR,
    Change: Shape.PREPARATION,
    Undo: Shape.PREPARATION,
    **dict.fromkeys((ShutDown, Isolate, Lock, Release, Prove, Unlock, Energise), Shape.MANUAL),
}
_UNDER_CONTROL = {EnergyState.LOCKED, EnergyState.RELEASED, EnergyState.VERIFIED}


def chart_of(procedure: Procedure, route: Route, power: Power, shared: Shared) -> Chart:
    """The flowchart of a procedure; its nodes link to the steps of the page."""
    nodes = tuple(_node(place, power, shared) for place in route.places.values())
    edges = tuple(Edge(way.source, way.target, way.label) for way in route.ways)
    count = len(nodes)
    description = f"{count} steps from “{nodes[0].text}” to the outcomes. The same as text follows below the drawing."
    return Chart(f"Flowchart: {procedure.title}", description, route.start, nodes, edges, "flow")


def _node(place: Place, power: Power, shared: Shared) -> Node:
    return Node(
        id=place.key,
        shape=_SHAPES.get(type(place.step), Shape.PROCESS),
        text=plain(fill(main_text(place.step, shared), place.binding, shared)),
        href=f"#{step_anchor(place.key)}",
        number=place.number,
        stretch=_stretch(place, power),
        tone=_tone(place.step),
        hazard=bool(place.hazards),
    )


def _stretch(place: Place, power: Power) -> Stretch:
    """Live as soon as one source may be live, safe when all are locked off or better."""
    states = [states for source in power if (states := power_at(place, source, power))]
    if not states:
        return Stretch.UNSTATED
    if all(one <= _UNDER_CONTROL for one in states):
        return Stretch.SAFE
    return Stretch.LIVE if any(EnergyState.LIVE in one for one in states) else Stretch.UNSTATED


def power_at(place: Place, source: str, power: Power) -> States:
    """The states in which a source can be found when a step is begun."""
    first = place.inside[0].key if place.inside else place.key
    return power.get(source, {}).get(first, frozenset())


def _tone(step: Step) -> Tone:
    if not isinstance(step, Finish):
        return Tone.PLAIN
    return Tone.GOOD if step.result is Result.FIXED else Tone.HANDOVER
