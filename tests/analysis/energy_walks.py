"""Small walks made of nothing but energy steps, for properties of the dataflow."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from hypothesis import strategies as st

from kbgen.model.record import NOWHERE
from kbgen.model.steps import (
    Do,
    Energise,
    EnergyStep,
    Group,
    Isolate,
    Lock,
    Prove,
    Release,
    ShutDown,
    Step,
    Unlock,
    Wait,
)
from kbgen.model.tables import EnergySource, StoredEnergy
from kbgen.model.values import Duration, Id, Prose, Quantity, Ref, Text
from kbgen.model.words import EnergyKind, Means, Ready
from kbgen.route.route import Place, Way
from kbgen.route.unfold import Walk

GROUP = Group(group=Text.of("Work", NOWHERE), steps=())
ACTS: dict[str, type[EnergyStep]] = {
    "shut-down": ShutDown,
    "isolate": Isolate,
    "lock": Lock,
    "release": Release,
    "prove": Prove,
    "unlock": Unlock,
    "energise": Energise,
}


def quantity(number: float, unit: str) -> Quantity:
    return Quantity(number, unit, f"{number:g} {unit}")


def source(name: str, kind: EnergyKind, points: Sequence[str] = (), fed_by: Sequence[str] = ()) -> EnergySource:
    stored = StoredEnergy(
        resistance=quantity(100, "kΩ"),
        capacitance=quantity(470, "µF"),
        voltage=quantity(622, "V"),
        safe_voltage=quantity(50, "V"),
    )
    return EnergySource(
        id=Id.of(name, NOWHERE),
        name=Text.of(name, NOWHERE),
        kind=kind,
        magnitude=Text.of("much", NOWHERE),
        points=tuple(Ref.of(point, NOWHERE) for point in points),
        fed_by=tuple(Ref.of(feeder, NOWHERE) for feeder in fed_by),
        stored=stored if kind is EnergyKind.STORED_ELECTRICAL else None,
        prove=Prose.of("test", NOWHERE),
    )


def step(key: str, act: str, on: str = "", point: str | None = None, empties: bool = False) -> Step:
    """One step: an act on a source, a ``wait`` for it to drain for a minute, or a plain ``do``."""
    name, words = Id.of(key, NOWHERE), Prose.of(act, NOWHERE)
    if act == "do":
        return Do(id=name, do=words)
    if act == "wait":
        return Wait(id=name, wait=Duration(60, "1 min"), for_=words, discharges=Ref.of(on, NOWHERE))
    kind = ACTS[act]
    more: dict[str, object] = {}
    if kind is Prove:
        more = {"by": Means.VOLTAGE_TEST, "not_proved": Ref.of("next", NOWHERE)}
    elif kind is Energise:
        more = {"confirm": (Ready.PEOPLE_CLEAR,)}
    elif kind is Release:
        more = {"empties": empties}
    at = None if point is None else Ref.of(point, NOWHERE)
    return kind(id=name, source=Ref.of(on, NOWHERE), point=at, **{act.replace("-", "_"): words}, **more)  # type: ignore[arg-type, return-value]


def walk_of(steps: Mapping[str, Step], edges: Sequence[tuple[str, str, str]]) -> Walk:
    """A walk from the first of the steps; an edge is source, target and answer."""
    places = {
        key: Place(key, str(number), one, GROUP, None, {}, ()) for number, (key, one) in enumerate(steps.items(), 1)
    }
    leaving: dict[str, list[tuple[str, Way]]] = {}
    for start, target, answer in edges:
        leaving.setdefault(start, []).append((target, Way(start, target, answer, answer, NOWHERE)))
    return Walk(next(iter(steps)), places, {key: tuple(ways) for key, ways in leaving.items()})


SOURCES = {
    "mains": source("mains", EnergyKind.ELECTRICAL, points=("q1", "q2")),
    "link": source("link", EnergyKind.STORED_ELECTRICAL, fed_by=("mains",)),
    "load": source("load", EnergyKind.GRAVITY, points=("strut",)),
}


@st.composite
def steps(draw: st.DrawFn, key: str) -> Step:
    act = draw(st.sampled_from([*ACTS, "isolate", "lock", "release", "prove", "wait", "do"]))
    name = draw(st.sampled_from(sorted(SOURCES)))
    point = draw(st.sampled_from([None, *map(str, SOURCES[name].points)]))
    return step(key, act, name, point, draw(st.booleans()))


@st.composite
def walks(draw: st.DrawFn, forward_only: bool) -> Walk:
    """A random walk of up to seven steps; ``forward_only`` leaves out loops."""
    count = draw(st.integers(1, 7))
    keys = [f"s{number}" for number in range(count)]
    made = {key: draw(steps(key)) for key in keys}
    edges = []
    for number, key in enumerate(keys):
        targets = keys[number + 1 :] if forward_only else keys
        chosen = draw(st.lists(st.sampled_from(targets), max_size=2, unique=True)) if targets else []
        answers = ["", "not-proved"] if isinstance(made[key], Prove) else ["", ""]
        edges += [(key, target, answer) for target, answer in zip(chosen, answers, strict=False)]
    return walk_of(made, edges)
