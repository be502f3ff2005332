"""Defects in the limits of readings: gaps, overlaps, other units, bands and ranges that do not fit."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from tests.proof.edits import changed, less
from tests.proof.scope import Edit, Mutator, Scope, instead
from tests.proof.tables import Data
from tests.proof.units import split

LOWER = {"from": "above", "above": "from"}
UPPER = {"to": "below", "below": "to"}
SMALLER = {
    "V": "mV", "A": "mA", "mA": "A", "Ω": "mΩ", "kΩ": "Ω", "MΩ": "kΩ", "bar": "mbar", "mm": "m", "K": "mK",
    "mm/s": "m/s",
}  # fmt: skip
OTHER = {"V": "A", "A": "V", "mA": "mV", "Ω": "V", "kΩ": "kV", "MΩ": "MV", "bar": "K", "mm": "s", "K": "bar"}


def _limits(step: Data) -> Iterator[tuple[int, str, float]]:
    """Each written limit of a reading: the number of its band, its key, its value."""
    for number, band in enumerate(step["bands"]):
        for key in (*LOWER, *UPPER):
            if key in band:
                yield number, key, split(band[key])[0]


def _at_limits(change: Callable[[Data, int, str, float], Data | None], keys: tuple[str, ...]) -> Mutator:
    """A mutator that changes each limit under some keys."""

    def mutate(scope: Scope) -> Iterator[Edit]:
        for step in scope.acting("read"):
            for number, key, value in _limits(step):
                new = change(step, number, key, value) if key in keys else None
                if new is not None:
                    place = f"{step['id']} {step['bands'][number]['id']} {key}"
                    yield Edit(place, instead(scope, step, new).groups)

    return mutate


def _with_limit(step: Data, number: int, key: str, value: Any) -> Data:
    new: Data = changed(step, ("bands", number, key), value)
    return new


def _moved(part: float) -> Callable[[Data, int, str, float], Data | None]:
    """Moves a lower limit by a part of the width of its band."""

    def change(step: Data, number: int, key: str, value: float) -> Data | None:
        band = step["bands"][number]
        upper = next((split(band[one])[0] for one in UPPER if one in band), value + 1)
        return _with_limit(step, number, key, value + part * (upper - value))

    return change


def _turned(into: dict[str, str]) -> Callable[[Data, int, str, float], Data | None]:
    """Turns a limit that is included into one that is not, or the other way round."""

    def change(step: Data, number: int, key: str, value: float) -> Data | None:
        band = step["bands"][number]
        turned = {into.get(one, one): limit for one, limit in band.items() if one == key or one not in into.values()}
        return {**step, "bands": [turned if place == number else one for place, one in enumerate(step["bands"])]}

    return change


def _without(step: Data, number: int, key: str, value: float) -> Data:
    """Leaves a limit out."""
    new: Data = changed(step, ("bands", number), less(step["bands"][number], key))
    return new


def _in_unit(units: dict[str, str]) -> Callable[[Data, int, str, float], Data | None]:
    def change(step: Data, number: int, key: str, value: float) -> Data | None:
        unit = units.get(step["unit"])
        return _with_limit(step, number, key, f"{value:g} {unit}") if unit and value else None

    return change


def _wrong_unit(scope: Scope) -> Iterator[Edit]:
    """The unit of the whole reading is another one."""
    for step in scope.acting("read"):
        if step["unit"] in OTHER:
            yield instead(scope, step, {**step, "unit": OTHER[step["unit"]]})


def _drop_unit(scope: Scope) -> Iterator[Edit]:
    for step in scope.acting("read"):
        yield instead(scope, step, less(step, "unit"))


def _drop_band(scope: Scope) -> Iterator[Edit]:
    for step in scope.acting("read"):
        for number, band in enumerate(step["bands"]):
            bands = [*step["bands"][:number], *step["bands"][number + 1 :]]
            yield Edit(f"{step['id']} {band['id']}", instead(scope, step, {**step, "bands": bands}).groups)


def _wider_instrument(scope: Scope) -> Iterator[Edit]:
    for step in scope.acting("read"):
        for end in ("from", "to"):
            low, high = (split(step["shows"][one])[0] for one in ("from", "to"))
            wider = {"from": low - (high - low), "to": high + (high - low)}[end]
            yield instead(scope, step, changed(step, ("shows", end), wider))


MUTATORS: dict[str, Mutator] = {
    "gap between bands": _at_limits(_moved(0.3), ("from", "above")),
    "overlap of bands": _at_limits(_moved(-0.3), ("from", "above")),
    "gap at a limit": _at_limits(_turned({"from": "above", "to": "below"}), ("from", "to")),
    "overlap at a limit": _at_limits(_turned({"above": "from", "below": "to"}), ("above", "below")),
    "drop limit of a band": _at_limits(_without, ("from", "above", "to", "below")),
    "limit of another dimension": _at_limits(_in_unit(OTHER), ("from", "above", "to", "below")),
    "limit a thousand times off": _at_limits(_in_unit(SMALLER), ("from", "above", "to", "below")),
    "wrong unit of a reading": _wrong_unit,
    "drop unit of a reading": _drop_unit,
    "drop band": _drop_band,
    "wider instrument": _wider_instrument,
}
