"""How far an energy source is held back, and whether that is enough for a step."""

from __future__ import annotations

from typing import NamedTuple

from kbgen.model.words import EnergyState

_RANK: dict[EnergyState, int] = {state: rank for rank, state in enumerate(EnergyState) if state is not EnergyState.ANY}


class Hold(NamedTuple):
    """What has been done to one energy source since it was last there in full.

    ``opened`` and ``locked`` name isolation points. ``emptied`` tells that nothing is left for an isolation to hold;
    ``doubted`` that the last proof found energy and nothing was released since. ``drained`` is the time in seconds
    for which it has been cut off and waited for.
    """

    stopped: bool = False
    opened: frozenset[str] = frozenset()
    locked: frozenset[str] = frozenset()
    released: bool = False
    emptied: bool = False
    proved: bool = False
    doubted: bool = False
    drained: int = 0


PRESENT = Hold()


def is_cut_off(hold: Hold, points: frozenset[str]) -> bool:
    """Tell whether every isolation point is open; a source without points counts as soon as it is released."""
    if hold.emptied or not points:
        return hold.released
    return points <= hold.opened


def is_locked_off(hold: Hold, points: frozenset[str]) -> bool:
    """Tell whether every isolation point is open and locked; without points there is nothing to lock."""
    if hold.emptied or not points:
        return hold.released
    return points <= hold.opened and points <= hold.locked


def state_of(hold: Hold, points: frozenset[str]) -> EnergyState:
    """Return the furthest state that the source has reached; one that is doubted counts as live."""
    if hold.doubted:
        return EnergyState.LIVE
    if hold.proved:
        return EnergyState.VERIFIED
    if is_locked_off(hold, points):
        return EnergyState.RELEASED if hold.released else EnergyState.LOCKED
    if points and is_cut_off(hold, points):
        return EnergyState.ISOLATED
    return EnergyState.SHUT_DOWN if hold.stopped else EnergyState.LIVE


def meets(hold: Hold, points: frozenset[str], needed: EnergyState) -> bool:
    """Tell whether a source is held back at least as far as a step needs it, or is there where the step needs it."""
    if needed is EnergyState.ANY:
        return True
    reached = _RANK[state_of(hold, points)]
    if needed is EnergyState.LIVE:
        return reached <= _RANK[EnergyState.SHUT_DOWN] and not hold.opened
    return reached >= _RANK[needed]
