"""A temporary change along the way: made, undone, forgotten."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from tests.proof.danger import Kind
from tests.proof.stations import Station
from tests.proof.tables import Data, listed
from tests.proof.walking import Bad, State


class Item(NamedTuple):
    """Whether the change is open, and whether what must come before it was done."""

    is_open: bool = False
    checked: bool = False
    recorded: bool = False


class ChangeWatch:
    """Watches one temporary change."""

    def __init__(self, change: Data) -> None:
        self._id: str = change["id"]
        self._is_guard = change.get("kind") == "guard-removed"
        self._is_swap = change.get("kind") == "swapped-unit"
        self._says_losses = "loses" in change
        self._loses = bool(listed(change.get("loses")))
        self._checked_at = change.get("checked-at")
        self._recorded_at = change.get("recorded-at")

    @property
    def first(self) -> State:
        """Nothing is changed yet."""
        return Item()

    def dangers(self, station: Station, state: State) -> Iterator[Bad]:
        """What is wrong with the change at a station."""
        assert isinstance(state, Item)
        step = station.step
        if step.get("closes") == self._id and not state.is_open:
            yield Bad(Kind.CHANGE_OUT_OF_TURN, self._id, f"{self._id} is undone but not open")
        if step.get("opens") == self._id:
            yield from self._opening(state)
        if state.is_open and station.act == "energise" and self._is_guard:
            yield Bad(Kind.GUARD_OFF_RESTART, self._id, f"energy comes back while {self._id} is open")
        if state.is_open and station.act == "outcome" and step.get("result") in ("fixed", "other-procedure"):
            yield Bad(Kind.LEFT_CHANGED, self._id, f"{self._id} is still open")

    def _opening(self, item: Item) -> Iterator[Bad]:
        if item.is_open:
            yield Bad(Kind.CHANGE_OUT_OF_TURN, self._id, f"{self._id} is made twice")
        if self._is_swap and not item.checked:
            yield Bad(Kind.UNCHECKED_SWAP, self._id, "nobody looked whether the unit fits")
        if (self._loses and not item.recorded) or (self._is_swap and not self._says_losses):
            yield Bad(Kind.UNCHECKED_SWAP, self._id, "what is lost was not recorded")

    def after(self, station: Station, answer: str, state: State) -> State:
        """The change after a station."""
        assert isinstance(state, Item)
        step = station.step
        return Item(
            is_open=(state.is_open or step.get("opens") == self._id) and step.get("closes") != self._id,
            checked=state.checked or station.key == self._checked_at,
            recorded=state.recorded or station.key == self._recorded_at,
        )
