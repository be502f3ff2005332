"""KB701: a unit that nobody knows, or a quantity of a kind that does not belong where it stands."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.steps import Prove, Read
from kbgen.model.tables import EnergySource
from kbgen.model.values import Quantity
from kbgen.model.words import EnergyKind, Means
from kbgen.place import Span
from kbgen.units import alike, same_dimension, unit

from .case import Case, TablesCase
from .readings import readings

RULE = Rule(
    code="KB701",
    name="unfit-unit",
    severity=Severity.ERROR,
    summary="A unit is not known, or a quantity cannot be compared with the one that it stands for.",
    rationale=(
        "A limit in another unit than the instrument shows is compared in the head, in front of the machine; one that "
        "cannot be compared at all, such as a pressure for a voltage, is a slip that somebody will act on."
    ),
    remedy=(
        "Write units as the trade does, such as V, mbar, °C, mm/s or 1/min, with small and large letters as they are. "
        "Count with pulses, pieces or strokes, and write 1 for a plain number. Say in the text whether a pressure is "
        "gauge or absolute."
    ),
    example=Example(
        "conveyors/drive-trips.yaml",
        good="{id: even, answer: Even enough, from: 0, to: 2, accepted",
        bad="{id: even, answer: Even enough, from: 0, to: 2 V, accepted",
    ),
)

# The data of stored energy that have a unit, each with a unit that measures it.
_STORED = {
    "resistance": "Ω",
    "capacitance": "µF",
    "voltage": "V",
    "safe-voltage": "V",
    "pressure": "bar",
    "volume": "L",
    "mass": "kg",
    "height": "m",
    "temperature": "°C",
}
# What a means of proof shows whatever the energy source.
_SHOWN = {Means.VOLTAGE_TEST: ("V", "a voltage test shows"), Means.THERMOMETER: ("°C", "a thermometer shows")}
_UNDER_PRESSURE = (EnergyKind.PNEUMATIC, EnergyKind.HYDRAULIC)


def check(case: Case) -> Iterator[Diagnostic]:
    """Report units that do not fit in the readings and proofs of a procedure."""
    for step in readings(case.procedure.steps):
        yield from _reading(step)
    # A shared sequence learns only here what energy it is run for; what is found in it twice is reported once.
    for place in case.route.all_places:
        if isinstance(place.step, Prove):
            yield from _proof(place.step)
            yield from _gauge(place.step, case.shared.energy.get(place.source or ""))


def check_tables(case: TablesCase) -> Iterator[Diagnostic]:
    """Report them in the shared sequences and in the data of stored energy."""
    for sequence in case.shared.sequences.values():
        for step in readings(sequence.steps):
            yield from _reading(step)
        for group in sequence.steps:
            for one in group.steps:
                if isinstance(one, Prove):
                    yield from _proof(one)
    for source in case.shared.energy.values():
        yield from _stored(source)


def _reading(step: Read) -> Iterator[Diagnostic]:
    for value in step.inputs:
        if unit(value.unit) is None:
            yield _unknown(value.unit, value.unit.at)
    if unit(step.unit) is None:
        yield _unknown(step.unit, step.unit.at)
        return
    for shown in (step.shows.from_, step.shows.to):
        yield from _limit(shown, step, f"an end of what the instrument of step “{step.id}” shows", step.shows.at)
    for band in step.bands:
        for limit in (band.from_, band.above, band.to, band.below):
            if limit is not None:
                yield from _limit(limit, step, f"a limit of the band “{band.id}” of step “{step.id}”", band.id.at)


def _limit(limit: Quantity, step: Read, role: str, at: Span) -> Iterator[Diagnostic]:
    """A limit without a unit has that of the reading."""
    if limit.unit and limit.unit != step.unit:
        yield from _misfit(limit, step.unit, role, at)


def _proof(step: Prove) -> Iterator[Diagnostic]:
    if step.below is None:
        return
    wanted, role = _SHOWN.get(step.by, (None, "shows that no energy is left"))
    yield from _misfit(step.below, wanted, f"what {role} in step “{step.id}”", step.id.at)


def _gauge(step: Prove, source: EnergySource | None) -> Iterator[Diagnostic]:
    known = step.below and step.below.unit and unit(step.below.unit)
    if step.below and known and step.by is Means.GAUGE and source and source.kind in _UNDER_PRESSURE:
        yield from _misfit(step.below, "bar", f"the pressure that the gauge of step “{step.id}” shows", step.id.at)


def _stored(source: EnergySource) -> Iterator[Diagnostic]:
    if source.stored is None:
        return
    for key, wanted in _STORED.items():
        quantity = getattr(source.stored, key.replace("-", "_"))
        if quantity is not None:
            yield from _misfit(quantity, wanted, f"the {key} of “{source.id}”", source.stored.at)


def _misfit(quantity: Quantity, wanted: str | None, role: str, at: Span) -> Iterator[Diagnostic]:
    """Report a quantity without a unit, with an unknown one, or of another kind than a wanted unit measures."""
    found, measured = unit(quantity.unit), unit(wanted) if wanted else None
    if not quantity.unit:
        example = f", for example {quantity} {wanted}" if wanted else ""
        yield Diagnostic(RULE, at, f"“{quantity}” has no unit, but stands for {role}.", f"Write its unit{example}.")
    elif found is None:
        yield _unknown(quantity.unit, at)
    elif measured and not same_dimension(found, measured):
        message = f"“{quantity}” cannot be {role}: it cannot be turned into {wanted}."
        yield Diagnostic(RULE, at, message, f"Write it in {wanted} or another unit of the same kind.")


def _unknown(text: str, at: Span) -> Diagnostic:
    near = alike(text)
    if near:
        names = " or ".join(f"“{one}”" for one in near)
        help = f"Did you mean {names}? Small and large letters differ."
    else:
        help = RULE.remedy
    return Diagnostic(RULE, at, f"“{text}” is no unit that is known, so that nothing can be compared with it.", help)
