"""Energy sources that feed one another, and what each step makes of them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from kbgen.analysis.discharge import draining_time
from kbgen.analysis.hold import PRESENT, Hold, is_cut_off, is_locked_off
from kbgen.model.steps import Energise, EnergyStep, Isolate, Lock, Prove, Release, ShutDown, Step, Unlock, Wait
from kbgen.model.tables import EnergySource
from kbgen.route.route import Place, Way

State = tuple[Hold, ...]


@dataclass(frozen=True)
class Circuit:
    """Sources of which one fills the other again, or a source by itself; they are followed together."""

    sources: tuple[EnergySource, ...]

    @cached_property
    def index(self) -> Mapping[str, int]:
        """The place of each source in a state."""
        return {str(source.id): number for number, source in enumerate(self.sources)}

    @cached_property
    def points(self) -> tuple[frozenset[str], ...]:
        """The isolation points of each source."""
        return tuple(frozenset(map(str, source.points)) for source in self.sources)

    @cached_property
    def feeders(self) -> tuple[tuple[int, ...], ...]:
        """For each source those that fill it again."""
        return tuple(tuple(self.index[name] for name in source.fed_by if name in self.index) for source in self.sources)

    @cached_property
    def needs_to_drain(self) -> tuple[int, ...]:
        """For each source the seconds that it needs to fall to its safe voltage, 0 where that is not known."""
        return tuple(draining_time(source) or 0 for source in self.sources)

    @property
    def start(self) -> State:
        """Everything is there in full."""
        return (PRESENT,) * len(self.sources)

    def is_fed(self, number: int, state: State) -> bool:
        """Tell whether something fills a source as things stand."""
        return any(self._fills(one, state) for one in self._others(number))

    def _fills(self, number: int, state: State) -> bool:
        """Tell whether a source can fill others: a switched one only passes on, any other gives what it has stored."""
        if self._is_switched(number, state):
            is_open = is_cut_off(state[number], self.points[number])
            return not is_open and (not self.feeders[number] or self.is_fed(number, state))
        return not state[number].released or self.is_fed(number, state)

    def unlocked_feeders(self, number: int, state: State) -> Iterator[EnergySource]:
        """Those sources that could fill a source again because no lock keeps them from it."""
        for one in self._others(number):
            if self._can_come_back(one, state):
                yield self.sources[one]

    def _can_come_back(self, number: int, state: State) -> bool:
        behind = any(True for _ in self.unlocked_feeders(number, state))
        if self._is_switched(number, state):
            is_locked = is_locked_off(state[number], self.points[number])
            return not is_locked and (behind or not self.feeders[number])
        return behind or not state[number].released

    def _is_switched(self, number: int, state: State) -> bool:
        return bool(self.points[number]) and not state[number].emptied

    def _others(self, number: int) -> Iterator[int]:
        """The feeders of a source; one that feeds what feeds it is left out, so that every search ends."""
        return (one for one in self.feeders[number] if one < number)

    def points_at(self, place: Place) -> frozenset[str]:
        """The isolation points that an energy step works on: the one it names, or all of its source."""
        point = getattr(place.step, "point", None)
        return frozenset({str(point)}) if point else self.points[self.index[place.source or ""]]

    def concerns(self, place: Place) -> bool:
        """Tell whether a step can change the state of a source in this circuit."""
        return acted_on(place) in self.index

    def after(self, place: Place, way: Way, state: State) -> State:
        """Return the state with which a step is left by one of its ways."""
        number = self.index.get(acted_on(place) or "")
        if number is None:
            return state
        if isinstance(place.step, Wait):
            return self._drained(number, place.step.wait.seconds, state)
        if isinstance(place.step, Energise):
            return self._brought_back(number, self.points_at(place), state)
        hold = _DONE[type(place.step)](state[number], place.step, way, self.points_at(place))
        return (*state[:number], hold, *state[number + 1 :])

    def _drained(self, number: int, seconds: int, state: State) -> State:
        hold = state[number]
        cut_off = not self.points[number] or is_cut_off(hold, self.points[number])
        if not cut_off or self.is_fed(number, state):
            return state
        drained = min(hold.drained + seconds, self.needs_to_drain[number])
        return (*state[:number], hold._replace(drained=drained), *state[number + 1 :])

    def _brought_back(self, number: int, points: frozenset[str], state: State) -> State:
        hold = state[number]
        filled = {number: Hold(opened=hold.opened - points, locked=hold.locked - points)}
        for other in range(number + 1, len(self.sources)):
            is_open = self.points[other] and self.points[other] <= state[other].opened
            if not is_open and any(one in filled for one in self.feeders[other]):
                filled[other] = Hold(opened=state[other].opened, locked=state[other].locked)
        return tuple(filled.get(one, state[one]) for one in range(len(state)))


def acted_on(place: Place) -> str | None:
    """The energy source that a step acts on: an energy step on its own, a wait on what drains away meanwhile."""
    if isinstance(place.step, EnergyStep):
        return place.source
    if isinstance(place.step, Wait) and place.step.discharges:
        return place.bound(place.step.discharges)
    return None


def circuits(names: Iterable[str], known: Mapping[str, EnergySource]) -> tuple[Circuit, ...]:
    """Group the named sources, and all that feed them, into circuits; feeders stand before what they feed."""
    ordered: dict[str, EnergySource] = {}
    for name in names:
        _add_after_feeders(name, known, ordered, frozenset())
    groups: list[dict[str, EnergySource]] = []
    for name, source in ordered.items():
        near = [group for group in groups if any(feeder in group for feeder in source.fed_by)]
        joined = {one: member for group in near for one, member in group.items()} | {name: source}
        groups = [group for group in groups if group not in near] + [joined]
    return tuple(Circuit(tuple(group[name] for name in ordered if name in group)) for group in groups)


def _add_after_feeders(
    name: str, known: Mapping[str, EnergySource], ordered: dict[str, EnergySource], above: frozenset[str]
) -> None:
    if name in ordered or name in above or name not in known:
        return
    for feeder in known[name].fed_by:
        _add_after_feeders(feeder, known, ordered, above | {name})
    ordered[name] = known[name]


def _isolated(hold: Hold, step: Step, way: Way, points: frozenset[str]) -> Hold:
    return hold._replace(opened=hold.opened | points)


def _locked(hold: Hold, step: Step, way: Way, points: frozenset[str]) -> Hold:
    return hold._replace(locked=hold.locked | points)


def _unlocked(hold: Hold, step: Step, way: Way, points: frozenset[str]) -> Hold:
    return hold._replace(locked=hold.locked - points, released=False, proved=False)


def _released(hold: Hold, step: Step, way: Way, points: frozenset[str]) -> Hold:
    emptied = hold.emptied or getattr(step, "empties", False)
    return hold._replace(released=True, emptied=emptied, doubted=False)


def _tested(hold: Hold, step: Step, way: Way, points: frozenset[str]) -> Hold:
    found = way.answer == "not-proved"
    return hold._replace(proved=not found, doubted=found)


def _stopped(hold: Hold, step: Step, way: Way, points: frozenset[str]) -> Hold:
    return hold._replace(stopped=True)


_DONE: Mapping[type[Step], Callable[[Hold, Step, Way, frozenset[str]], Hold]] = {
    ShutDown: _stopped,
    Isolate: _isolated,
    Lock: _locked,
    Release: _released,
    Prove: _tested,
    Unlock: _unlocked,
}
