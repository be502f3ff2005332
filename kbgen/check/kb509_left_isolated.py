"""KB509: a machine is given back with an energy source isolated or a lock on it."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.analysis.energy import Followed
from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.steps import Finish
from kbgen.model.words import Result
from kbgen.route.route import Place

from .case import Case
from .energy_words import told_with_energy

RULE = Rule(
    code="KB509",
    name="left-isolated",
    severity=Severity.ERROR,
    summary="On some path a job ends as fixed, or goes on in another procedure, while a source is isolated or locked.",
    rationale=(
        "The next shift finds a machine that is said to run and does not, and cuts off a lock to start it. Another "
        "procedure begins as if nothing were locked."
    ),
    remedy="Lead the path through taking the lock off and bringing energy back before the outcome.",
    example=Example("conveyors/drive-trips.yaml", good="        go: restore-own\n", bad="        go: fixed-clamp\n"),
)

_GIVES_BACK = frozenset({Result.FIXED, Result.OTHER_PROCEDURE})


def check(case: Case) -> Iterator[Diagnostic]:
    """Report each outcome that gives the machine back, with a path on which a source is still held."""
    for followed in case.followed:
        for key in followed.states:
            place = case.walk.places[key]
            if isinstance(place.step, Finish) and place.step.result in _GIVES_BACK:
                for name, number in followed.circuit.index.items():
                    yield from _left(followed, place, name, number)


def _left(followed: Followed, place: Place, name: str, number: int) -> Iterator[Diagnostic]:
    held = [hold for hold in followed.holds(place.key, name) if hold.opened or hold.locked]
    if held:
        path = followed.path_to(place.key, lambda state: bool(state[number].opened or state[number].locked))
        what = "locked" if any(hold.locked for hold in held) else "isolated"
        message = (
            f"The outcome “{place.step.id}” gives the machine back while “{name}” can still be {what}: "
            f"{told_with_energy(followed, name, path)}."
        )
        yield Diagnostic(RULE, place.step.id.at, message, RULE.remedy)
