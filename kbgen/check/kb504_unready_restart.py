"""KB504: energy is brought back while people, tools, covers or locks are not accounted for."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.analysis.energy import Followed
from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.steps import Energise
from kbgen.model.words import ChangeKind, Ready
from kbgen.route.route import Place

from .case import Case
from .energy_words import run_label, told_with_energy
from .told_path import told

RULE = Rule(
    code="KB504",
    name="unready-restart",
    severity=Severity.ERROR,
    summary="Energy is brought back without all confirmations, past a lock, or while a guard is off.",
    rationale=(
        "A start with a person in reach, a spanner on the shaft or a colleague's lock cut off is how restarts kill. "
        "The order is that of OSHA 29 CFR 1910.147(e) and (f)(1): tools, people, devices taken off by those who put "
        "them on, then energy."
    ),
    remedy=(
        "Confirm people-clear, tools-out and covers-on, and devices-removed-by-owner where the source has isolation "
        "points; take locks off and put guards back before energy comes back."
    ),
    example=Example(
        "tables/conveyors.yaml",
        good="confirm: [people-clear, tools-out, covers-on, devices-removed-by-owner]",
        bad="confirm: [people-clear, tools-out, devices-removed-by-owner]",
    ),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Report what is not confirmed, and the paths on which a lock is on or a guard is off."""
    for followed in case.followed:
        for key in followed.states:
            place = case.walk.places[key]
            if isinstance(place.step, Energise) and place.source in followed.circuit.index:
                yield from _unconfirmed(case, followed, place)
                yield from _still_locked(case, followed, place)
                yield from _guard_off(case, place)


def _unconfirmed(case: Case, followed: Followed, place: Place) -> Iterator[Diagnostic]:
    assert isinstance(place.step, Energise)
    needed = [Ready.PEOPLE_CLEAR, Ready.TOOLS_OUT, Ready.COVERS_ON]
    if followed.circuit.points[followed.circuit.index[place.source or ""]]:
        needed.append(Ready.DEVICES_REMOVED)
    missing = [one.value for one in needed if one not in place.step.confirm]
    if missing:
        message = f"Step “{place.step.id}” brings “{place.source}” back without confirming {', '.join(missing)}."
        yield Diagnostic(RULE, place.step.id.at, message, RULE.remedy)


def _still_locked(case: Case, followed: Followed, place: Place) -> Iterator[Diagnostic]:
    circuit = followed.circuit
    number, points = circuit.index[place.source or ""], circuit.points_at(place)
    if not any(points & state[number].locked for state in followed.states[place.key]):
        return
    path = followed.path_to(place.key, lambda state: bool(points & state[number].locked))
    message = (
        f"Step {place.number}, “{place.step.id}”, brings “{place.source}” back while a lock is on: "
        f"{told_with_energy(followed, place.source or '', path)}."
    )
    yield Diagnostic(RULE, place.step.id.at, message, RULE.remedy, tuple(run_label(case.route, place)))


def _guard_off(case: Case, place: Place) -> Iterator[Diagnostic]:
    for change in case.procedure.temporary_changes:
        if change.kind is ChangeKind.GUARD_REMOVED and True in case.changes.states(place.key, str(change.id)):
            path = case.changes.path(place.key, str(change.id), True)
            told_path = told(case.walk, path, lambda one: one.key in case.changes.set_at)
            message = (
                f"Step {place.number}, “{place.step.id}”, brings “{place.source}” back while “{change.id}” is open "
                f"({change.what}): {told_path}."
            )
            yield Diagnostic(RULE, place.step.id.at, message, RULE.remedy, tuple(run_label(case.route, place)))
