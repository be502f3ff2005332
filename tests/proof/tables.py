"""The shared tables as the simulator sees them: energy sources, sequences, alarm stages, the order of isolation."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations
from pathlib import Path
from typing import Any

import yaml

from tests.proof.units import OtherDimensionError, seconds, value_in

Data = dict[str, Any]

# The published orders as pairs "earlier, later"; secondary sources for all three.
_OSHA = ("shut-down", "isolate", "lock", "release", "prove")  # OSHA 29 CFR 1910.147(d)
_NFPA = ("shut-down", "isolate", "release", "lock", "prove")  # NFPA 70E, 120.5
_EN = (("isolate", "lock"), ("lock", "prove"), ("isolate", "release"), ("release", "prove"), ("isolate", "prove"))
USUAL_MARGIN = 1.25


@dataclass(frozen=True)
class Source:
    """An energy source: ``drains_in`` is the least time in seconds that its charge needs, None where not known."""

    id: str
    kind: str
    points: tuple[str, ...]
    fed_by: tuple[str, ...]
    drains_in: float | None


@dataclass(frozen=True)
class Tables:
    """Everything that several procedures share, as it was written."""

    documents: tuple[Data, ...]

    @cached_property
    def order(self) -> frozenset[tuple[str, str]]:
        """All pairs of acts of which the first must be done before the second."""
        site = next(one["site"] for one in self.documents if "site" in one)
        if site["isolation-order"] == "en-50110-1":
            return frozenset(_EN)
        named = {"osha-1910-147": _OSHA, "nfpa-70e-120-5": _NFPA, "own": tuple(site.get("own-order", ()))}
        return frozenset(combinations(named[site["isolation-order"]], 2))

    @cached_property
    def sources(self) -> Mapping[str, Source]:
        """Energy sources by name."""
        return {one["id"]: _source(one) for one in self._all("energy-sources")}

    @cached_property
    def sequences(self) -> Mapping[str, Data]:
        """Shared sequences by name."""
        return {one["id"]: one for one in self._all("sequences")}

    @cached_property
    def stages(self) -> Mapping[tuple[str, str, str], float | None]:
        """When each stage of an alarm begins, in seconds, by display, code and stage."""
        return {
            (display["id"], str(alarm["code"]), stage["id"]): seconds(stage["after"]) if "after" in stage else None
            for display in self._all("displays")
            for alarm in display["alarms"]
            for stage in alarm.get("stages", ())
        }

    def _all(self, key: str) -> Iterable[Data]:
        return (one for document in self.documents for one in document.get(key, ()))


def load(path: Path) -> Data:
    """Read a YAML file."""
    data = yaml.load(path.read_text(encoding="utf-8"), getattr(yaml, "CSafeLoader", yaml.SafeLoader))
    assert isinstance(data, dict)
    return data


def listed(value: Any) -> tuple[Any, ...]:
    """A list as written, empty where the word none stands or nothing at all."""
    return tuple(value) if isinstance(value, list) else ()


def _source(data: Data) -> Source:
    points, fed_by = listed(data.get("points")), listed(data.get("fed-by"))
    return Source(data["id"], data["kind"], points, fed_by, _drains_in(data.get("stored") or {}))


def _drains_in(stored: Data) -> float | None:
    """R·C·ln(V0/Vsafe) times the margin, in seconds."""
    try:
        resistance = value_in(stored["resistance"], "ohm")
        capacitance = value_in(stored["capacitance"], "farad")
        start, safe = value_in(stored["voltage"], "volt"), value_in(stored["safe-voltage"], "volt")
    except (KeyError, OtherDimensionError):
        return None
    margin = float(stored.get("margin", USUAL_MARGIN))
    return resistance * capacitance * math.log(start / safe) * margin if start > safe > 0 else 0.0
