"""What was begun and not put back yet at each step, along all paths that lead there: temporary changes and locks."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Generic, NamedTuple, TypeVar

from kbgen.model.shared import Shared
from kbgen.model.steps import Change, Lock, Undo, Unlock
from kbgen.route.flow import forward, trail
from kbgen.route.route import Place, Way
from kbgen.route.unfold import Walk

T = TypeVar("T", bound=Hashable)


@dataclass(frozen=True)
class OpenItem(Generic[T]):
    """Something that can be open at a place; ``always`` tells that no path leads there on which it is not."""

    item: T
    always: bool


@dataclass(frozen=True)
class OpenItems(Generic[T]):
    """Items that steps open and close; all are closed at the start.

    ``set_at`` tells for each step that opens or closes items how it leaves them: true is open.
    """

    walk: Walk
    items: tuple[T, ...]
    set_at: Mapping[str, Mapping[T, bool]]

    def states(self, key: str, item: T) -> frozenset[bool]:
        """The states in which an item can be when a place is entered; none where no path leads there."""
        return frozenset(is_open for one, is_open in self._held.get(key, ()) if one == item)

    def open_at(self, key: str) -> tuple[OpenItem[T], ...]:
        """The items that can be open when a place is entered, in their order."""
        found = ((item, self.states(key, item)) for item in self.items)
        return tuple(OpenItem(item, False not in states) for item, states in found if True in states)

    def path(self, key: str, item: T, is_open: bool) -> list[tuple[str, Way | None]]:
        """A shortest path to a place on which the item is open, or not open, when the place is entered."""
        sought = (key, (item, is_open))
        return trail(
            self.walk.start, (item, False), self.walk.edges, self._along, lambda at, value: (at, value) == sought
        )

    def last_set(self, path: Iterable[tuple[str, Way | None]], item: T) -> Place | None:
        """The last step of a path that opens or closes the item; the end of the path does not count."""
        setting = [key for key, way in path if way is not None and item in self.set_at.get(key, {})]
        return self.walk.places[setting[-1]] if setting else None

    @cached_property
    def _held(self) -> Mapping[str, frozenset[tuple[T, bool]]]:
        if not self.items or self.walk.start not in self.walk.places:
            return {}
        return forward(self.walk.start, frozenset((item, False) for item in self.items), self.walk.edges, self._along)

    def _along(self, key: str, way: Way, values: frozenset[tuple[T, bool]]) -> frozenset[tuple[T, bool]]:
        left = self.set_at.get(key)
        if left is None:
            return values
        return frozenset((item, left.get(item, is_open)) for item, is_open in values)


class HungLock(NamedTuple):
    """A lock on an energy source; ``point`` is empty where the source has no isolation point."""

    source: str
    point: str


def open_changes(walk: Walk, declared: Iterable[str]) -> OpenItems[str]:
    """The temporary changes, by name, that can be open at each step; only declared ones count."""
    names = tuple(dict.fromkeys(declared))
    set_at = {
        key: {name: is_open} for key, place in walk.places.items() for name, is_open in _changed(place) if name in names
    }
    return OpenItems(walk, names, set_at)


def _changed(place: Place) -> Iterator[tuple[str, bool]]:
    if isinstance(place.step, Change):
        yield str(place.step.opens), True
    elif isinstance(place.step, Undo):
        yield str(place.step.closes), False


def hung_locks(walk: Walk, shared: Shared) -> OpenItems[HungLock]:
    """The locks that can be on at each step; a step that names no isolation point works on all of its source."""
    set_at = {
        key: {lock: isinstance(place.step, Lock) for lock in _locks(place, shared)}
        for key, place in walk.places.items()
        if isinstance(place.step, (Lock, Unlock))
    }
    hung = (lock for left in set_at.values() for lock, is_on in left.items() if is_on)
    return OpenItems(walk, tuple(dict.fromkeys(hung)), set_at)


def _locks(place: Place, shared: Shared) -> tuple[HungLock, ...]:
    source = place.source or ""
    named = getattr(place.step, "point", None)
    known = shared.energy.get(source)
    points = (named,) if named else known.points if known else ()
    return tuple(HungLock(source, str(point)) for point in points) or (HungLock(source, ""),)
