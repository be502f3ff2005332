"""KB502: a person reaches where an energy source need not be proved absent."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.steps import End, Finish, Prove
from kbgen.model.words import EnergyKind, EnergyState, Means, Person
from kbgen.route.route import Place

from .case import Case
from .energy_words import STATE, run_label

RULE = Rule(
    code="KB502",
    name="unproved-reach",
    severity=Severity.ERROR,
    summary="Hands are in the machine, or before open electrical parts, with a source that is not proved absent.",
    rationale=(
        "Whoever reaches in trusts that everything was thought of. A source that nobody proved, because the step says "
        "any or asks for less than a test, is the one that moves or bites."
    ),
    remedy=(
        "Ask for verified. Where the work cannot be done dead, ask for live and give live-work with its reason and "
        "qualification; where the source cannot reach the person, say why under out-of-reach."
    ),
    example=Example(
        "conveyors/drive-trips.yaml",
        good="    energy: {conveyor-mains: verified, drive-dc-link: verified}\n",
        bad="    energy: {conveyor-mains: verified, drive-dc-link: any}\n",
    ),
)

_ELECTRICAL = frozenset({EnergyKind.ELECTRICAL, EnergyKind.STORED_ELECTRICAL, EnergyKind.SECOND_SUPPLY})


def check(case: Case) -> Iterator[Diagnostic]:
    """Report each step at which a source within reach need not be verified and no reason for live work is given."""
    for key, place in case.walk.places.items():
        needs = case.needs[key]
        if isinstance(place.step, (Finish, End)) or _is_voltage_test(place):
            continue
        accepted = {EnergyState.VERIFIED, EnergyState.LIVE} if needs.live_work else {EnergyState.VERIFIED}
        for source, state in needs.states.items():
            if state not in accepted and source not in needs.out_of_reach and _reaches(case, place, source):
                yield _finding(case, place, source, state)


def _is_voltage_test(place: Place) -> bool:
    """Tell whether the step is itself the test that shows the absence of voltage, done with the hands out."""
    step = place.step
    return isinstance(step, Prove) and step.by is Means.VOLTAGE_TEST and place.person is Person.ENCLOSURE_OPEN


def _reaches(case: Case, place: Place, source: str) -> bool:
    known = case.shared.energy.get(source)
    if known is None or place.person in (None, Person.OUTSIDE):
        return False
    return place.person is Person.HANDS_IN or known.kind in _ELECTRICAL


def _finding(case: Case, place: Place, source: str, state: EnergyState) -> Diagnostic:
    where = "has hands in the machine" if place.person is Person.HANDS_IN else "stands before the open enclosure"
    asked = "may be in any state" if state is EnergyState.ANY else f"is only asked to be {STATE[state]}"
    message = f"Step {place.number}, “{place.step.id}”, {where} while “{source}” {asked}."
    return Diagnostic(RULE, place.step.id.at, message, RULE.remedy, tuple(run_label(case.route, place)))
