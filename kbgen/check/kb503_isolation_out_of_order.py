"""KB503: an energy source is brought under control in another order than the one that the knowledge base follows."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from kbgen.analysis.circuit import State
from kbgen.analysis.energy import Followed
from kbgen.analysis.isolation_order import Order, left_out, order_of
from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.steps import Isolate, Lock, Prove, Release, ShutDown, Step
from kbgen.model.words import Act
from kbgen.route.route import Place

from .case import Case
from .energy_words import run_label, told_with_energy

RULE = Rule(
    code="KB503",
    name="isolation-out-of-order",
    severity=Severity.ERROR,
    summary="On some path an act of the isolation comes before one that must precede it.",
    rationale=(
        "A lock on a switch that is still closed holds it closed. A proof before the stored energy is released, or "
        "while something fills it again, proves the state of a moment. The order is that of the standard that "
        "site: isolation-order names."
    ),
    remedy="Do the missing act before this step on every path, or name the order that the site follows.",
    example=Example(
        "tables/conveyors.yaml",
        good=(
            "          - id: stop\n"
            "            shut-down: Stop the machine with its ordinary stop button.\n"
            "            source: supply\n"
            "            takes: 1 min\n"
        ),
        bad="",
    ),
)

_ACTS: Mapping[type[Step], Act] = {
    ShutDown: Act.SHUT_DOWN,
    Isolate: Act.ISOLATE,
    Lock: Act.LOCK,
    Release: Act.RELEASE,
    Prove: Act.PROVE,
}
_NOT_DONE = {
    Act.SHUT_DOWN: "shut down",
    Act.ISOLATE: "isolated",
    Act.LOCK: "locked off",
    Act.RELEASE: "released",
    Act.PROVE: "proved",
}


def check(case: Case) -> Iterator[Diagnostic]:
    """Report each act that comes too early, with the path; what was missing before already is not told again."""
    order = order_of(case.shared.site)
    for followed in case.followed:
        places = [case.walk.places[key] for key in followed.states]
        acting = [place for place in places if type(place.step) in _ACTS and place.source in followed.circuit.index]
        missing: dict[tuple[str, str], list[str]] = {}
        for place in acting:
            for lack in {
                lack for state in followed.states[place.key] for lack in _lacks(followed, order, place, state)
            }:
                missing.setdefault(lack, []).append(place.key)
        for lack, keys in sorted(missing.items()):
            for key in keys:
                yield from _finding(case, followed, order, key, lack, keys)


def _lacks(followed: Followed, order: Order, place: Place, state: State) -> Iterator[tuple[str, str]]:
    """Yield each source that is not as it must be before an act, with what has not been done to it."""
    circuit, act = followed.circuit, _ACTS[type(place.step)]
    number = circuit.index[place.source or ""]
    source, hold = circuit.sources[number], state[number]
    if getattr(place.step, "empties", False):
        hold = hold._replace(emptied=True)
    points = circuit.points_at(place) if act in (Act.ISOLATE, Act.LOCK) else circuit.points[number]
    yield from ((str(source.id), _NOT_DONE[one]) for one in left_out(act, order, source, hold, points))
    refills = not circuit.points[number] or hold.emptied
    if act is Act.PROVE and refills:
        yield from ((str(one.id), "locked off") for one in circuit.unlocked_feeders(number, state))
    elif act is Act.RELEASE and refills and not hold.emptied and circuit.is_fed(number, state):
        yield str(source.id), "cut off from what fills it"


def _finding(
    case: Case, followed: Followed, order: Order, key: str, lack: tuple[str, str], keys: list[str]
) -> Iterator[Diagnostic]:
    place = case.walk.places[key]

    def is_lacking(one: str, state: State) -> bool:
        return lack in set(_lacks(followed, order, case.walk.places[one], state))

    path = followed.path_to(key, lambda state: is_lacking(key, state))
    if any(one in keys and is_lacking(one, state) for one, state in list(followed.states_along(path))[:-1]):
        return
    source, what = lack
    message = (
        f"Step {place.number}, “{place.step.id}”, comes before “{source}” is {what}: "
        f"{told_with_energy(followed, source, path)}."
    )
    yield Diagnostic(RULE, place.step.id.at, message, RULE.remedy, tuple(run_label(case.route, place)))
