"""Whether every value that an instrument can show leads exactly one way."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from tests.proof.danger import Danger, Kind
from tests.proof.stations import Route, Station
from tests.proof.tables import Data
from tests.proof.units import OtherDimensionError, value_in


@dataclass(frozen=True)
class Span:
    """A range of values; an end that is not written reaches without end."""

    low: float
    high: float
    has_low: bool
    has_high: bool

    def holds(self, value: float) -> bool:
        """Tell whether a value lies inside."""
        above = self.low < value or (self.has_low and value == self.low)
        return above and (value < self.high or (self.has_high and value == self.high))


def unreadable(route: Route) -> Iterator[Danger]:
    """Report the readings of a route that lead nowhere, two ways, or are limited in another dimension."""
    for station in route.stations.values():
        if station.act == "read":
            for text in _faults(station):
                yield Danger(Kind.UNREADABLE, station.key, text, text, ("start", "...", station.key))


def _faults(station: Station) -> Iterator[str]:
    step = station.step
    if "unit" not in step:
        yield "nobody knows the unit"
        return
    try:
        spans = [_span(band, step["unit"]) for band in step["bands"]]
        lowest, highest = (_value(step["shows"][end], step["unit"]) for end in ("from", "to"))
    except (OtherDimensionError, ValueError) as error:
        yield str(error)
        return
    for value in _samples(spans, lowest, highest):
        holding = [band["id"] for band, span in zip(step["bands"], spans, strict=True) if span.holds(value)]
        if len(holding) != 1:
            yield f"{value:g} leads to {' and '.join(holding) or 'no band'}"
            return


def _span(band: Data, unit: str) -> Span:
    low, high = (band.get("from", band.get("above")), band.get("to", band.get("below")))
    return Span(
        -float("inf") if low is None else _value(low, unit),
        float("inf") if high is None else _value(high, unit),
        "from" in band,
        "to" in band,
    )


def _value(written: Any, unit: str) -> float:
    return value_in(written, unit)


def _samples(spans: list[Span], lowest: float, highest: float) -> list[float]:
    """Every end that the instrument can show, and a value between each two of them."""
    ends = {end for span in spans for end in (span.low, span.high)} | {lowest, highest}
    inside = sorted(end for end in ends if lowest <= end <= highest)
    between = [(one + other) / 2 for one, other in zip(inside, inside[1:], strict=False)]
    return sorted([*inside, *between])
