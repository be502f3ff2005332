"""KB506: stored electrical energy is tested before it can have drained away."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.analysis.discharge import margin_of
from kbgen.analysis.energy import Followed, Path
from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.steps import Prove, Wait
from kbgen.model.tables import EnergySource
from kbgen.place import Span
from kbgen.route.route import Place

from .case import Case
from .energy_words import run_label, told_with_energy

RULE = Rule(
    code="KB506",
    name="wait-too-short",
    severity=Severity.ERROR,
    summary="On some path stored electrical energy is not given the time to fall to its safe voltage.",
    rationale=(
        "Whoever opens the cover too early stands before capacitors that can kill. The time follows from resistance, "
        "capacitance and voltage: t = R C ln(V0/Vsafe), times a margin for their tolerances."
    ),
    remedy="Let the wait with discharges last as long as the figure says, once nothing fills the source any more.",
    example=Example("conveyors/drive-trips.yaml", good="wait: 5 min", bad="wait: 2 min"),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Report each test of a stored charge before which some path waits too little."""
    for followed in case.followed:
        for name, number in followed.circuit.index.items():
            if followed.circuit.needs_to_drain[number]:
                yield from _too_early(case, followed, name, number)


def _too_early(case: Case, followed: Followed, name: str, number: int) -> Iterator[Diagnostic]:
    needed = followed.circuit.needs_to_drain[number]
    for key in followed.states:
        place = case.walk.places[key]
        tested = isinstance(place.step, Prove) and place.source == name
        if not tested or all(hold.drained >= needed for hold in followed.holds(key, name)):
            continue
        path = followed.path_to(key, lambda state: state[number].drained < needed)
        shortest = min(hold.drained for hold in followed.holds(key, name))
        message = (
            f"“{name}” needs {needed} s {_worked_out(followed.circuit.sources[number])}, but step {place.number}, "
            f"“{place.step.id}”, tests it after {shortest} s: {told_with_energy(followed, name, path)}."
        )
        at = _last_wait(case, path, name) or place.step.id.at
        yield Diagnostic(RULE, at, message, RULE.remedy, tuple(run_label(case.route, place)))


def _worked_out(source: EnergySource) -> str:
    stored = source.stored
    assert stored is not None
    return (
        f"to fall from {stored.voltage} to {stored.safe_voltage} (R C ln(V0/Vsafe) with {stored.resistance} and "
        f"{stored.capacitance}, times {margin_of(source):g})"
    )


def _last_wait(case: Case, path: Path, name: str) -> Span | None:
    waits = (place for key, _ in reversed(path) if _drains(place := case.walk.places[key], name))
    return next((place.step.id.at for place in waits), None)


def _drains(place: Place, name: str) -> bool:
    step = place.step
    return isinstance(step, Wait) and step.discharges is not None and place.bound(step.discharges) == name
