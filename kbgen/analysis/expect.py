"""Chances carried along an unwound walk: how likely each place is, and how long it takes to get there on average."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from kbgen.analysis.chances import Chances
from kbgen.analysis.unwind import Situation, Unwound


@dataclass
class Mean:
    """The chance that something is reached, with whole and waiting time in seconds times that chance."""

    chance: float = 0
    whole: float = 0
    waiting: float = 0


@dataclass(frozen=True)
class Expected:
    """What is to be expected: of the job until each outcome is left, and of the time that each place takes in a job."""

    until: Mapping[str, Mean]
    at: Mapping[str, Mean]


class _Flow:
    """What arrives in a situation, for each state of the fault."""

    __slots__ = ("chance", "waiting", "whole")

    def __init__(self, states: int) -> None:
        self.chance: list[float] = [0] * states
        self.whole: list[float] = [0] * states
        self.waiting: list[float] = [0] * states

    def spend(self, whole: int, waiting: int) -> None:
        for state, chance in enumerate(self.chance):
            self.whole[state] += chance * whole
            self.waiting[state] += chance * waiting

    def remove(self, removed: Sequence[float]) -> None:
        """Turn the removed share of each cause into the last state, in which the cause is gone."""
        for row in (self.chance, self.whole, self.waiting):
            for state, share in enumerate(removed):
                row[-1] += row[state] * share
                row[state] -= row[state] * share

    def add(self, other: _Flow, shares: Sequence[float] | None) -> None:
        for state, chance in enumerate(other.chance):
            if chance:
                share = 1 if shares is None else shares[state]
                self.chance[state] += chance * share
                self.whole[state] += other.whole[state] * share
                self.waiting[state] += other.waiting[state] * share


def expect(unwound: Unwound, chances: Chances) -> Expected:
    """Carry the chances from the start to all outcomes, in the order of the situations."""
    states = len(chances.at_start)
    flows: dict[Situation, _Flow] = {unwound.start: _Flow(states)}
    flows[unwound.start].chance = list(chances.at_start)
    until: dict[str, Mean] = {}
    at: dict[str, Mean] = {}
    for here, leaving in unwound.ways.items():
        flow = flows.pop(here)
        whole, waiting = unwound.spent[here]
        chance = sum(flow.chance)
        _add(at, here.place, chance, chance * whole, chance * waiting)
        flow.spend(whole, waiting)
        if here.place in chances.removes:
            flow.remove(chances.removes[here.place])
        if not leaving:
            _add(until, here.place, chance, sum(flow.whole), sum(flow.waiting))
        shares = chances.ways.get(here.place)
        for to, way in leaving:
            if to not in flows:
                flows[to] = _Flow(states)
            flows[to].add(flow, shares[way.answer] if shares else None)
    return Expected(until, at)


def _add(means: dict[str, Mean], key: str, chance: float, whole: float, waiting: float) -> None:
    mean = means.setdefault(key, Mean())
    mean.chance += chance
    mean.whole += whole
    mean.waiting += waiting
