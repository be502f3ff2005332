"""KB702: something that the instrument can show leads nowhere, or two ways at once."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from kbgen.analysis.stretches import (
    HIGHEST,
    LOWEST,
    Cut,
    Interval,
    above,
    below,
    from_here,
    stretches,
    told,
    up_to,
    with_unit,
)
from kbgen.diagnostics import Diagnostic, Example, Label, Rule, Severity
from kbgen.model.steps import Band, Read
from kbgen.model.values import Quantity

from .case import Case, TablesCase
from .kb307_unfit_band import problem
from .readings import number_in, readings

RULE = Rule(
    code="KB702",
    name="band-gap",
    severity=Severity.ERROR,
    summary="The bands of a reading leave out a value that the instrument can show, or two of them claim it.",
    rationale=(
        "A technician who reads a value between two bands is left without a way on, and one who reads a value of two "
        "bands chooses by chance. Both happen at the machine, with the cover off."
    ),
    remedy=(
        "Let each band start where the one before it ends: one of them with to or from, which include the value, the "
        "other with above or below, which do not. The first band starts at the lowest value that the instrument can "
        "show or lower, the last one ends at the highest or higher."
    ),
    example=Example(
        "conveyors/drive-trips.yaml",
        good="above: 2, to: 100, go: call-service",
        bad="above: 5, to: 100, go: call-service",
    ),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Report what the readings of a procedure leave open."""
    for step in readings(case.procedure.steps):
        yield from of_reading(step)


def check_tables(case: TablesCase) -> Iterator[Diagnostic]:
    """Report the same for the shared sequences."""
    for sequence in case.shared.sequences.values():
        for step in readings(sequence.steps):
            yield from of_reading(step)


def of_reading(step: Read) -> Iterator[Diagnostic]:
    """Report what one reading leaves open or claims twice, and the bands that it never takes."""
    shown, intervals = _shown(step), [_interval(band, step.unit) for band in step.bands]
    known = [interval for interval in intervals if interval is not None]
    # What is left out here is reported as a unit that does not fit (KB701), or as a band without sense (KB307).
    if shown is None or len(known) < len(intervals) or any(map(problem, step.bands)):
        return
    if shown.start.number >= shown.end.number:
        low, high = (with_unit(cut.number, step.unit) for cut in shown)
        message = f"The instrument of step “{step.id}” shows from {low} to {high}, which is no range."
        yield Diagnostic(RULE, step.shows.at, message, "Write the lower value at from and the higher one at to.")
        return
    yield from _idle_bands(step, shown, known)
    yield from _gaps_and_overlaps(step, shown, known)


def _shown(step: Read) -> Interval | None:
    low, high = number_in(step.shows.from_, step.unit), number_in(step.shows.to, step.unit)
    return None if low is None or high is None else Interval(from_here(low), up_to(high))


def _interval(band: Band, unit: str) -> Interval | None:
    start = _cut(unit, LOWEST, (band.from_, from_here), (band.above, above))
    end = _cut(unit, HIGHEST, (band.to, up_to), (band.below, below))
    return None if start is None or end is None else Interval(start, end)


def _cut(unit: str, open_ended: Cut, *limits: tuple[Quantity | None, Callable[[float], Cut]]) -> Cut | None:
    """The cut at the limit that is written, or the open end; None if its unit does not fit."""
    for limit, cut in limits:
        if limit is not None:
            number = number_in(limit, unit)
            return None if number is None else cut(number)
    return open_ended


def _idle_bands(step: Read, shown: Interval, intervals: Sequence[Interval]) -> Iterator[Diagnostic]:
    for band, interval in zip(step.bands, intervals, strict=True):
        if interval.is_empty:
            message = f"No reading fits the band “{band.id}” of step “{step.id}”: it ends before it starts."
            yield Diagnostic(RULE, band.id.at, message, "Correct its limits, or take the band away.")
        elif interval.end <= shown.start or interval.start >= shown.end:
            message = (
                f"The band “{band.id}” of step “{step.id}” lies wholly outside of {told(shown, step.unit)}, which is "
                "all that the instrument can show, so that it is never taken."
            )
            yield Diagnostic(RULE, band.id.at, message, "Correct its limits or those of shows, or take the band away.")


def _gaps_and_overlaps(step: Read, shown: Interval, intervals: Sequence[Interval]) -> Iterator[Diagnostic]:
    for interval, holders in stretches(shown, intervals):
        which = told(interval, step.unit)
        bands = [step.bands[place] for place in holders]
        if not bands:
            message = f"At step “{step.id}”, {which} leads nowhere: who reads that is left without a way on."
            yield Diagnostic(RULE, step.id.at, message, RULE.remedy)
        elif len(bands) > 1:
            names = [f"“{band.id}”" for band in bands]
            both = "both " if len(names) == 2 else ""
            claims = f"{both}{', '.join(names[:-1])} and {names[-1]}"
            message = f"At step “{step.id}”, {which} leads to {claims}: which way is taken is left to chance."
            labels = tuple(Label(band.id.at, f"“{band.id}” claims it") for band in bands[:-1])
            yield Diagnostic(RULE, bands[-1].id.at, message, RULE.remedy, labels)
