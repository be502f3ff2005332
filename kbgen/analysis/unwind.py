"""Walk -> every situation of the work, with its loops unwound up to their limits: a graph without circles."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from kbgen.analysis.spent import Spent
from kbgen.model.steps import Finish, Step, Wait
from kbgen.route.digraph import cycle, order, reachable, reverse
from kbgen.route.route import Way
from kbgen.route.unfold import Walk

MOST_SITUATIONS = 20_000


class TooManySituationsError(Exception):
    """There are more than MOST_SITUATIONS."""


class Situation(NamedTuple):
    """A place, and what was used up or set up before it was entered, as bits.

    Only what can still matter is held: a way back that cannot be met any more is forgotten.
    """

    place: str
    used: int


class Onward(NamedTuple):
    """A way that is open in a situation, with the situation it leads to."""

    to: Situation
    way: Way


@dataclass(frozen=True)
class Unwound:
    """All situations in an order in which every way leads forward; ``spent`` is the time spent in each."""

    start: Situation
    ways: Mapping[Situation, tuple[Onward, ...]]
    spent: Mapping[Situation, Spent]


class _Exit(NamedTuple):
    """A way with the counter that it moves or waits for: where its bits begin, and how often it may be taken."""

    target: str
    way: Way
    shift: int = 0
    limit: int = 0

    def used(self, before: int) -> int | None:
        """What is used up after the way was taken; None where it is not open."""
        if not self.limit:
            return before
        taken = (before >> self.shift) & ((1 << self.limit.bit_length()) - 1)
        if self.way.after:
            return before if taken == self.limit else None
        return before + (1 << self.shift) if taken < self.limit else None


def unwind(walk: Walk, set_ups: Mapping[str, int], goals: Collection[str] | None = None) -> Unwound | None:
    """Unwind a walk; ``set_ups`` gives the seconds that each set-up takes, spent where it is first needed.

    With ``goals``, only what can lead to one of these places is followed. None if a loop has no limit, if no goal can
    be reached, or, without goals, if a path ends elsewhere than at an outcome. Raises TooManySituationsError.
    """
    kept = _leading_to(walk, goals)
    if walk.start not in kept or cycle(_unlimited(walk, kept)) or (goals is None and _breaks_off(walk)):
        return None
    plan = _Plan(walk, set_ups, kept)
    start = Situation(walk.start, 0)
    found: dict[Situation, tuple[Onward, ...]] = {}
    todo = [start]
    while todo:
        here = todo.pop()
        if here in found:
            continue
        if len(found) == MOST_SITUATIONS:
            raise TooManySituationsError
        found[here] = plan.onward(here)
        todo.extend(one.to for one in found[here])
    ordered = order({here: [one.to for one in ways] for here, ways in found.items()}, start)
    return Unwound(start, {here: found[here] for here in ordered}, {here: plan.spent(here) for here in ordered})


def spent_at(step: Step) -> Spent:
    """Working and waiting time of a step by itself, without its set-ups."""
    takes = step.takes.seconds if step.takes else 0
    waiting = step.wait.seconds if isinstance(step, Wait) else 0
    return Spent(takes + waiting, waiting)


class _Plan:
    """What can be done in each situation, and how long it takes."""

    def __init__(self, walk: Walk, set_ups: Mapping[str, int], kept: Collection[str]) -> None:
        self._places = walk.places
        self._set_ups = set_ups
        bits = _Bits()
        self._exits = {
            source: tuple(one for one in _exits(source, leaving, bits) if one.target in kept)
            for source, leaving in walk.edges.items()
            if source in kept
        }
        needs = [(key, str(name)) for key in walk.places if key in kept for name in walk.places[key].step.set_up]
        self._bits = {name: bits.take(1) for name in dict.fromkeys(name for _, name in needs)}
        for key, name in needs:
            bits.met(key, self._bits[name])
        self._matters = _matters(walk, bits.met_at)

    def onward(self, here: Situation) -> tuple[Onward, ...]:
        """The ways that are open."""
        before = here.used
        for name in self._places[here.place].step.set_up:
            before |= 1 << self._bits[name]
        taken = ((one, one.used(before)) for one in self._exits.get(here.place, ()))
        return tuple(
            Onward(Situation(one.target, used & self._matters.get(one.target, 0)), one.way)
            for one, used in taken
            if used is not None
        )

    def spent(self, here: Situation) -> Spent:
        """The time spent, with the set-ups that are first needed here."""
        step = self._places[here.place].step
        fresh = {str(name) for name in step.set_up if not here.used >> self._bits[name] & 1}
        return spent_at(step).plus(Spent(sum(self._set_ups.get(name, 0) for name in fresh)))


class _Bits:
    """Gives out bits, and remembers at which places they are met."""

    def __init__(self) -> None:
        self.met_at: dict[str, int] = {}
        self._next = 0

    def take(self, count: int) -> int:
        """Where a new row of bits begins."""
        self._next += count
        return self._next - count

    def met(self, place: str, shift: int, count: int = 1) -> None:
        """The bits matter at a place."""
        self.met_at[place] = self.met_at.get(place, 0) | ((1 << count) - 1) << shift


def _exits(source: str, leaving: Sequence[tuple[str, Way]], bits: _Bits) -> tuple[_Exit, ...]:
    """The ways from a place, those of an answer with a limit tied to its counter."""
    counters: dict[str, tuple[int, int]] = {}
    for _, way in leaving:
        if way.limit:
            width = way.limit.bit_length()
            counters[way.answer] = (bits.take(width), way.limit)
            bits.met(source, counters[way.answer][0], width)
    return tuple(
        _Exit(target, way, *counters.get(way.answer, (0, 0))) if way.limit or way.after else _Exit(target, way)
        for target, way in leaving
    )


def _matters(walk: Walk, met_at: Mapping[str, int]) -> Mapping[str, int]:
    """For each place the bits that can still be met from there on."""
    before = reverse(_targets(walk))
    matters: dict[str, int] = {}
    for place, mask in met_at.items():
        for key in reachable(before, [place]):
            matters[key] = matters.get(key, 0) | mask
    return matters


def _targets(walk: Walk) -> dict[str, list[str]]:
    return {source: [target for target, _ in leaving] for source, leaving in walk.edges.items()}


def _leading_to(walk: Walk, goals: Collection[str] | None) -> Collection[str]:
    if goals is None:
        return walk.places
    return reachable(reverse(_targets(walk)), [goal for goal in goals if goal in walk.places])


def _unlimited(walk: Walk, kept: Collection[str]) -> Mapping[str, Sequence[str]]:
    """The ways that no limit ends, among what can be reached and is kept."""
    free = {
        source: [target for target, way in leaving if way.limit is None and target in kept]
        for source, leaving in walk.edges.items()
        if source in kept
    }
    met = reachable(_targets(walk), [walk.start])
    return {source: targets for source, targets in free.items() if source in met}


def _breaks_off(walk: Walk) -> bool:
    """Tell whether a path can end without an outcome: no way on, or none when a limit is used up."""
    for key in reachable(_targets(walk), [walk.start]):
        leaving = walk.edges.get(key, ())
        limited = {way.answer for _, way in leaving if way.limit}
        after = {way.answer for _, way in leaving if way.after}
        if limited - after or isinstance(walk.places[key].step, Finish) == bool(leaving):
            return True
    return False
