"""KB501: a path leads to a step on which an energy source is not in the state that the step needs."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.analysis.circuit import State
from kbgen.analysis.energy import Followed
from kbgen.analysis.hold import Hold, meets, state_of
from kbgen.analysis.needs import outer_place
from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.words import EnergyState

from .case import Case
from .energy_words import STATE, run_label, told_with_energy, where_the_person_is

RULE = Rule(
    code="KB501",
    name="energy-not-as-needed",
    severity=Severity.ERROR,
    summary="On some path an energy source is not in the state that a step needs.",
    rationale=(
        "One branch of nine that goes past the isolation, or comes back after a test run without isolating again, "
        "leads a hand to live parts. On the page it looks like all the others."
    ),
    remedy=(
        "Lead the path through isolation, lock, release and proof before the step, or through bringing energy back "
        "where the step needs it live. Write any only where the step is safe in every state."
    ),
    example=Example("conveyors/belt-slips.yaml", good="cannot-tell: {go: call}", bad="cannot-tell: {go: guard-off}"),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Report each step with the shortest path that brings it a source in a wrong state."""
    for followed in case.followed:
        for source in followed.circuit.index:
            for needed in EnergyState:
                yield from _wrong(case, followed, source, needed)


def _wrong(case: Case, followed: Followed, source: str, needed: EnergyState) -> Iterator[Diagnostic]:
    number = followed.circuit.index[source]
    points = followed.circuit.points[number]
    asking = [key for key in followed.states if case.needs[key].states.get(source) is needed]

    def is_wrong(state: State) -> bool:
        return not meets(state[number], points, needed)

    for key in asking:
        if not any(map(is_wrong, followed.states[key])):
            continue
        path = followed.path_to(key, is_wrong)
        *earlier, (_, state) = followed.states_along(path)
        if any(one in asking and is_wrong(before) for one, before in earlier):
            continue
        place = case.walk.places[key]
        message = (
            f"Step {place.number}, “{place.step.id}”, needs “{source}” {STATE[needed]}, but it can be "
            f"{_found(state[number], points, needed)} there: {told_with_energy(followed, source, path)}."
            f"{where_the_person_is(place)}"
        )
        if source in place.energy:
            yield Diagnostic(RULE, place.step.id.at, message, RULE.remedy, tuple(run_label(case.route, place)))
        else:
            yield Diagnostic(RULE, outer_place(case.route, place).step.id.at, message, RULE.remedy)


def _found(hold: Hold, points: frozenset[str], needed: EnergyState) -> str:
    state = state_of(hold, points)
    if needed is EnergyState.LIVE and state in (EnergyState.LIVE, EnergyState.SHUT_DOWN):
        return f"isolated at {', '.join(f'“{point}”' for point in sorted(hold.opened))}"
    return STATE[state]
