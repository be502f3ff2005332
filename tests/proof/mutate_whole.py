"""Defects outside the steps: in what a procedure says beforehand, and in the data of the shared tables."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from tests.proof.edits import Groups, less, steps_of
from tests.proof.tables import Data, listed
from tests.proof.units import split

WholeMutator = Callable[[Data], Iterator[tuple[str, Data]]]
SourceMutator = Callable[[Data], Iterator[Data]]


def _unsaid(key: str) -> WholeMutator:
    """A change does not say what must come before it."""

    def mutate(procedure: Data) -> Iterator[tuple[str, Data]]:
        changes = listed(procedure["temporary-changes"])
        for change in changes:
            if key in change:
                less_said = [less(one, key) if one is change else one for one in changes]
                yield change["id"], {**procedure, "temporary-changes": less_said}

    return mutate


def _forgotten_source(procedure: Data) -> Iterator[tuple[str, Data]]:
    """A source is not named beforehand; the steps still speak of it."""
    named = listed(procedure["before"]["energy"])
    for source in named:
        yield source, _before(procedure, [one for one in named if one != source])


def _unthought_source(procedure: Data) -> Iterator[tuple[str, Data]]:
    """Nobody thought of a source: nothing in the procedure speaks of it."""
    named = listed(procedure["before"]["energy"])
    for source in named:
        if not any(_works_on(step, source) for step in steps_of(procedure["steps"])):
            silent = {**procedure, "steps": _without_needs(procedure["steps"], source)}
            yield source, _before(silent, [one for one in named if one != source])


def _before(procedure: Data, energy: list[str]) -> Data:
    return {**procedure, "before": {**procedure["before"], "energy": energy or "none"}}


def _works_on(step: Data, source: str) -> bool:
    return source in (step.get("source"), step.get("discharges"), *(step.get("with") or {}).values())


def _without_needs(groups: Groups, source: str) -> Groups:
    def silent(holder: Data) -> Data:
        for key in ("energy", "out-of-reach"):
            if source in (holder.get(key) or {}):
                rest = less(holder[key], source)
                holder = {**holder, key: rest} if rest else less(holder, key)
        return holder

    return [{**silent(group), "steps": [silent(step) for step in group["steps"]]} for group in groups]


WHOLE_MUTATORS: dict[str, WholeMutator] = {
    "unsaid check": _unsaid("checked-at"),
    "unsaid record": _unsaid("recorded-at"),
    "unsaid loss": _unsaid("loses"),
    "source not named beforehand": _forgotten_source,
    "source never thought of": _unthought_source,
}


def _larger_capacitor(source: Data) -> Iterator[Data]:
    stored = source.get("stored") or {}
    if "capacitance" in stored:
        number, unit = split(stored["capacitance"])
        yield {**source, "stored": {**stored, "capacitance": f"{number * 10:g} {unit}"}}
        yield {**source, "stored": {**stored, "capacitance": f"{number:g} mF"}}


def _no_feeder(source: Data) -> Iterator[Data]:
    if "fed-by" in source:
        yield less(source, "fed-by")


SOURCE_MUTATORS: dict[str, SourceMutator] = {
    "larger capacitor": _larger_capacitor,
    "feeder unknown": _no_feeder,
}
