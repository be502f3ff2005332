"""The small physical world around one energy source, and what a technician in it is exposed to."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from tests.proof.danger import Kind
from tests.proof.proofs import unfit
from tests.proof.stations import PROVED, Station
from tests.proof.tables import Source, Tables
from tests.proof.walking import Bad, State

ELECTRICAL = frozenset({"electrical", "stored-electrical", "second-supply"})
STOPPED_FIRST = frozenset({"electrical", "second-supply", "pneumatic", "hydraulic", "kinetic"})
READY = ("people-clear", "tools-out", "covers-on")
OWN_LOCKS_OFF = "devices-removed-by-owner"


class Hold(NamedTuple):
    """How far one source is held off.

    ``let_go``: its stored energy was let go at the right time; ``empty``: nothing is left that a point would have to
    hold; ``fit_lock``: the lock was hung at the right time; ``drained``: seconds it drained while cut off;
    ``found``: the last test found energy.
    """

    stopped: bool = False
    fit_lock: bool = False
    let_go: bool = False
    empty: bool = False
    drained: float = 0.0
    proved: bool = False
    found: bool = False


class World(NamedTuple):
    """The isolation points, and how far the watched source and those that feed it are held off."""

    open: frozenset[str]
    locked: frozenset[str]
    holds: tuple[Hold, ...]


class SourceWatch:
    """Watches one energy source, with all that can fill it again; ``is_here`` tells that the machine has it."""

    def __init__(self, name: str, tables: Tables, is_here: bool) -> None:
        self._is_here = is_here
        self._tables = tables
        self._order = tables.order
        self._source = tables.sources[name]
        self._names = _with_feeders(name, tables)
        self._place = {one: place for place, one in enumerate(self._names)}

    @property
    def first(self) -> State:
        """Energy is there and the machine runs."""
        return World(frozenset(), frozenset(), tuple(Hold() for _ in self._names))

    def dangers(self, station: Station, state: State) -> Iterator[Bad]:
        """What endangers the person at a station, as far as this source goes."""
        assert isinstance(state, World)
        if station.act in ("run", "end"):
            return
        yield from self._unmet_need(station, state)
        if station.act == "outcome":
            yield from self._left_held(station, state)
        else:
            yield from self._reach(station, state)
        if station.source == self._source.id:
            yield from self._acting(station, state)

    def after(self, station: Station, answer: str, state: State) -> State:
        """The world after a step on this source, or on one that feeds it or shares a point with it."""
        assert isinstance(state, World)
        acted_on = self._tables.sources.get(station.source)
        if acted_on is None:
            return state
        points = self._points(station, acted_on)
        world = self._at_points(station.act, points, state)
        for name in self._names:
            world = self._change(name, station, answer, points, world)
        return world

    # What is dangerous

    def _reach(self, station: Station, world: World) -> Iterator[Bad]:
        """Hands in, or an open enclosure, before a source that is not proved absent."""
        source = self._source
        is_near = station.person == "hands-in" or (station.person == "enclosure-open" and source.kind in ELECTRICAL)
        is_testing = (
            station.person == "enclosure-open" and station.act == "prove" and station.step.get("by") == "voltage-test"
        )
        is_excepted = (
            not self._is_here or is_testing or station.is_sound_live_work or station.out_of_reach.get(source.id)
        )
        if is_near and not is_excepted and not self._hold(source.id, world).proved:
            yield Bad(Kind.UNPROVED_REACH, source.id, f"{station.person} while {source.id} is not proved absent")

    def _left_held(self, station: Station, world: World) -> Iterator[Bad]:
        if station.step.get("result") not in ("fixed", "other-procedure"):
            return
        held = [f"{point} locked" for point in self._source.points if point in world.locked]
        held += [f"{point} open" for point in self._source.points if point in world.open - world.locked]
        if held:
            yield Bad(Kind.LEFT_HELD, self._source.id, f"given back with {', '.join(held)}")

    def _unmet_need(self, station: Station, world: World) -> Iterator[Bad]:
        need = station.needs.get(self._source.id, "any")
        if need != "any" and not self._meets(need, world):
            yield Bad(Kind.NEED_NOT_MET, self._source.id, f"{self._source.id} should be {need} and is not")

    def _meets(self, need: str, world: World) -> bool:
        source, hold = self._source, self._hold(self._source.id, world)
        if need == "live":
            return not (hold.proved or hold.let_go or world.open.intersection(source.points))
        if need == "verified":
            return hold.proved
        if need == "released":
            return hold.let_go and not hold.found
        if need == "locked":
            return hold.let_go or self._is_off(source.id, world, world.locked)
        is_isolated = hold.let_go or self._is_off(source.id, world, world.open)
        return is_isolated or (need == "shut-down" and hold.stopped)

    def _acting(self, station: Station, world: World) -> Iterator[Bad]:
        source, points = self._source, self._points(station, self._source)
        hold = self._hold(source.id, world)
        if station.act == "isolate" and self._needs_stop and not hold.stopped and not world.open.issuperset(points):
            yield Bad(Kind.UNDER_LOAD, source.id, f"{source.id} isolated under load")
        elif station.act == "lock" and not world.open.issuperset(points):
            yield Bad(Kind.LOCK_ON_CLOSED, source.id, f"a lock on {', '.join(points)}, not open")
        elif station.act == "energise":
            yield from self._unready(station, points, world)
        elif station.act == "prove":
            yield from self._proof(station, world)

    @property
    def _needs_stop(self) -> bool:
        return ("shut-down", "isolate") in self._order and self._source.kind in STOPPED_FIRST

    def _unready(self, station: Station, points: tuple[str, ...], world: World) -> Iterator[Bad]:
        locked = sorted(world.locked.intersection(points))
        wanted = (*READY, OWN_LOCKS_OFF) if self._source.points else READY
        missing = [one for one in wanted if one not in (station.step.get("confirm") or ())]
        if locked:
            yield Bad(Kind.UNREADY_RESTART, self._source.id, f"brought back with a lock on {', '.join(locked)}")
        if missing:
            yield Bad(Kind.UNREADY_RESTART, self._source.id, f"brought back without {', '.join(missing)}")

    def _proof(self, station: Station, world: World) -> Iterator[Bad]:
        source, hold = self._source, self._hold(self._source.id, world)
        why = unfit(station.step, source.kind)
        if why:
            yield Bad(Kind.UNFIT_PROOF, source.id, why)
        missing = list(self._missing_before_proof(world))
        if missing:
            yield Bad(Kind.EARLY_PROOF, source.id, f"proof trusted, but {'; '.join(missing)}")
        if source.kind == "stored-electrical" and source.drains_in is not None and hold.drained < source.drains_in:
            text = f"tested after {hold.drained:g} s of draining, {source.drains_in:.0f} s are needed"
            yield Bad(Kind.SHORT_WAIT, source.id, text)

    def _missing_before_proof(self, world: World) -> Iterator[str]:
        source, hold = self._source, self._hold(self._source.id, world)
        if source.points and not hold.empty:
            if self._before_proof("isolate") and not world.open.issuperset(source.points):
                yield "a point is not open"
            if self._before_proof("lock") and not (world.locked.issuperset(source.points) and hold.fit_lock):
                yield "a point is not locked in its turn"
        if self._before_proof("release") and not hold.let_go:
            yield "what it stores was not let go in its turn"
        wanted = world.locked if self._before_proof("lock") else world.open
        for feeder in self._open_to(source, world):
            if not self._is_off(feeder, world, wanted):
                yield f"{feeder} can fill it again"

    def _before_proof(self, act: str) -> bool:
        return (act, "prove") in self._order

    # How the world is

    def _hold(self, name: str, world: World) -> Hold:
        return world.holds[self._place[name]]

    def _points(self, station: Station, source: Source) -> tuple[str, ...]:
        named = station.step.get("point")
        return (named,) if named else source.points

    def _open_to(self, source: Source, world: World) -> tuple[str, ...]:
        """What can flow into a source: nothing where its own open points stand in between."""
        is_shut = bool(source.points) and world.open.issuperset(source.points)
        return () if is_shut else source.fed_by

    def _is_off(self, name: str, world: World, points: frozenset[str], seen: frozenset[str] = frozenset()) -> bool:
        """Tell whether a source can fill nothing.

        One with isolation points is off when they are among ``points``, and a stretch of line also when all that
        feeds it is; one without is off when what it holds was let go and nothing fills it again.
        """
        source, hold = self._tables.sources[name], self._hold(name, world)
        is_line = bool(source.points) and not hold.empty
        if is_line and points.issuperset(source.points):
            return True
        feeders = [one for one in source.fed_by if one not in seen]
        are_off = all(self._is_off(one, world, points, seen | {name}) for one in feeders)
        return are_off and (bool(feeders) if is_line else hold.let_go)

    def _is_cut_off(self, source: Source, world: World) -> bool:
        """Tell whether nothing flows into a source any more."""
        if source.points and world.open.issuperset(source.points):
            return True
        has_other_inflow = bool(source.points) and not self._hold(source.id, world).empty
        return not has_other_inflow and all(self._is_off(one, world, world.open) for one in source.fed_by)

    # How the world changes

    def _at_points(self, act: str, points: tuple[str, ...], world: World) -> World:
        if act == "isolate":
            return world._replace(open=world.open.union(points))
        if act == "lock":
            return world._replace(locked=world.locked.union(world.open.intersection(points)))
        if act == "unlock":
            return world._replace(locked=world.locked.difference(points))
        if act == "energise":
            return world._replace(open=world.open.difference(points))
        return world

    def _change(self, name: str, station: Station, answer: str, points: tuple[str, ...], world: World) -> World:
        """What a step does to one source: to its own, to one that shares a point, or to one that it feeds."""
        source = self._tables.sources[name]
        if station.source == name:
            return self._with(name, self._acted_on(name, station, answer, world), world)
        if station.act in ("unlock", "energise", "lock") and set(points).intersection(source.points):
            return self._with(name, self._acted_on(name, station, answer, world), world)
        brings_energy = station.act == "energise" or (station.act == "prove" and answer != PROVED)
        if brings_energy and self._flows(station.source, source, world):
            return self._with(name, _refilled(self._hold(name, world)), world)
        return world

    def _acted_on(self, name: str, station: Station, answer: str, world: World) -> Hold:
        hold, act = self._hold(name, world), station.act
        if act == "shut-down":
            return hold._replace(stopped=True)
        if act == "lock":
            return hold._replace(fit_lock=hold.let_go or ("release", "lock") not in self._order)
        if act == "release":
            return self._released(name, bool(station.step.get("empties")), world)
        if act == "wait":
            return self._drained(name, station.lasts, world)
        if act == "prove":
            return hold._replace(proved=answer == PROVED, found=answer != PROVED)
        if act == "unlock":
            stays = hold.let_go and ("lock", "release") not in self._order
            return hold._replace(fit_lock=False, let_go=stays, proved=False)
        return Hold() if act == "energise" else hold

    def _released(self, name: str, empties: bool, world: World) -> Hold:
        """Letting go counts when nothing can flow in behind it, and when it has its turn."""
        source, hold = self._tables.sources[name], self._hold(name, world)
        if empties:
            return hold._replace(let_go=True, empty=True, found=False)
        wanted = world.locked if ("lock", "release") in self._order else world.open
        is_in_turn = ("isolate", "release") not in self._order or hold.empty or wanted.issuperset(source.points)
        let_go = hold.let_go or (is_in_turn and self._is_cut_off(source, world))
        return hold._replace(let_go=let_go, found=hold.found and not let_go)

    def _drained(self, name: str, time: float, world: World) -> Hold:
        source, hold = self._tables.sources[name], self._hold(name, world)
        if not self._is_cut_off(source, world):
            return hold
        enough = source.drains_in or 0.0
        return hold._replace(drained=min(hold.drained + time, max(enough, hold.drained)))

    def _flows(self, name: str, into: Source, world: World) -> bool:
        """Tell whether energy of one source flows into another, at first or second hand."""
        feeders = [self._tables.sources[one] for one in self._open_to(into, world) if one in self._place]
        return any(one.id == name or (one.id != into.id and self._flows(name, one, world)) for one in feeders)

    def _with(self, name: str, hold: Hold, world: World) -> World:
        place = self._place[name]
        return world._replace(holds=(*world.holds[:place], hold, *world.holds[place + 1 :]))


def _refilled(hold: Hold) -> Hold:
    return hold._replace(let_go=False, empty=False, drained=0.0, proved=False, found=False)


def _with_feeders(name: str, tables: Tables) -> tuple[str, ...]:
    """A source and all that feed it, at first or second hand."""
    names = [name]
    for one in names:
        names += [feeder for feeder in tables.sources[one].fed_by if feeder not in names and feeder in tables.sources]
    return tuple(names)
