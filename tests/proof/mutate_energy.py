"""Defects in the acts by which energy is held off and brought back: left out, out of order, at the wrong place."""

from __future__ import annotations

from collections.abc import Iterator

from tests.proof.edits import Groups, act_of, changed, exchanged, group_of, replaced, steps_of
from tests.proof.scope import Edit, Mutator, Scope, dropping, instead, without
from tests.proof.stations import ENERGY_ACTS
from tests.proof.tables import Data
from tests.proof.units import seconds


def _dropping_runs(*acts: str) -> Mutator:
    """A whole sequence is left out: what led to it leads to where it leads when all goes well."""

    def mutate(scope: Scope) -> Iterator[Edit]:
        for step in scope.runs(*acts):
            yield from without(scope, step)

    return mutate


def _drop_discharge_wait(scope: Scope) -> Iterator[Edit]:
    for step in _discharge_waits(scope):
        yield from without(scope, step)


def _shorten_wait(scope: Scope) -> Iterator[Edit]:
    for step in _discharge_waits(scope):
        for time in (f"{seconds(step['wait']) / 3:.0f} s", "20 s"):
            yield instead(scope, step, {**step, "wait": time})


def _discharge_waits(scope: Scope) -> Iterator[Data]:
    return (step for step in scope.acting("wait") if "discharges" in step)


def _exchanging(first: str, second: str) -> Mutator:
    """Two acts on the same source change places."""

    def mutate(scope: Scope) -> Iterator[Edit]:
        for one, other in _pairs(scope, first, second):
            yield Edit(one["id"], exchanged(scope.groups, one, other))

    return mutate


def _pairs(scope: Scope, first: str, second: str) -> Iterator[tuple[Data, Data]]:
    """Each act of one kind with the next one of another kind on the same source."""
    steps = scope.steps
    for place, one in enumerate(steps):
        if act_of(one) == first:
            later = (step for step in steps[place:] if act_of(step) == second and step["source"] == one["source"])
            yield from ((one, other) for other in [next(later, None)] if other is not None)


def _prove_before_release(scope: Scope) -> Iterator[Edit]:
    """The proof is done where the release was, by a person who stands where the proof needs him."""
    for release, proof in _pairs(scope, "release", "prove"):
        person = proof.get("person") or group_of(scope.groups, proof).get("person", "outside")
        groups = exchanged(scope.groups, release, proof)
        yield Edit(proof["id"], replaced(groups, _named(groups, proof["id"]), {**proof, "person": person}))


def _named(groups: Groups, name: str) -> Data:
    return next(step for step in steps_of(groups) if step["id"] == name)


def _wrong_source(scope: Scope) -> Iterator[Edit]:
    """An act is done on another source of the work."""
    for step in scope.acting(*ENERGY_ACTS):
        for other in _others(scope, step["source"]):
            yield instead(scope, step, {**step, "source": other})


def _others(scope: Scope, name: str) -> list[str]:
    named = dict.fromkeys(str(step["source"]) for step in scope.acting(*ENERGY_ACTS))
    return [one for one in named if one != name][:1]


def _wrong_binding(scope: Scope) -> Iterator[Edit]:
    """A sequence is run for another source of the same kind."""
    for step in scope.acting("run"):
        for name, source in (step.get("with") or {}).items():
            known = scope.tables.sources
            alike = [one.id for one in known.values() if one.kind == known[source].kind and one.id != source]
            for other in alike[:1]:
                yield instead(scope, step, changed(step, ("with", name), other))


def _wrong_point(scope: Scope) -> Iterator[Edit]:
    """Only one of two points is worked on: the other one is named twice."""
    for step in scope.acting(*ENERGY_ACTS):
        source = scope.source(step)
        points = source.points if source else ()
        for point in points if len(points) > 1 else ():
            if step.get("point") != point:
                yield instead(scope, step, {**step, "point": point})


MUTATORS: dict[str, Mutator] = {
    "drop verification": dropping("prove"),
    "drop isolation": dropping("isolate"),
    "drop lock": dropping("lock"),
    "drop release": dropping("release"),
    "drop shut-down": dropping("shut-down"),
    "drop unlock": dropping("unlock"),
    "drop energise": dropping("energise"),
    "drop isolating run": _dropping_runs("isolate", "prove"),
    "drop restoring run": _dropping_runs("energise"),
    "drop discharge wait": _drop_discharge_wait,
    "shorten discharge wait": _shorten_wait,
    "swap lock and release": _exchanging("lock", "release"),
    "swap isolation and lock": _exchanging("isolate", "lock"),
    "swap shut-down and isolation": _exchanging("shut-down", "isolate"),
    "swap unlock and energise": _exchanging("unlock", "energise"),
    "prove before release": _prove_before_release,
    "wrong source": _wrong_source,
    "wrong source of a run": _wrong_binding,
    "wrong point": _wrong_point,
}
