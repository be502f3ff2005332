"""The judge is judged: what the simulator finds on small procedures whose physics is plain."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from copy import deepcopy
from pathlib import Path
from typing import Any

import pytest

from tests.proof.bases import EXAMPLE, base, bases
from tests.proof.danger import Danger, Kind
from tests.proof.simulator import dangers, watches
from tests.proof.stations import Station, lay_out
from tests.proof.tables import Data, Tables
from tests.proof.walking import Bad, State, Walker, Watch

HERE = Path(__file__).parent
JUDGE = ("danger", "units", "tables", "stations", "walking", "energy", "proofs", "open_items", "readings", "dead_ends",
         "time_limits", "simulator")  # fmt: skip


class Together:
    """All watches at once: the whole world in one state."""

    def __init__(self, parts: list[Watch]) -> None:
        self._parts = parts

    @property
    def first(self) -> State:
        return tuple(part.first for part in self._parts)

    def dangers(self, station: Station, state: Any) -> Iterator[Bad]:
        for part, one in zip(self._parts, state, strict=True):
            yield from part.dangers(station, one)

    def after(self, station: Station, answer: str, state: Any) -> State:
        return tuple(part.after(station, answer, one) for part, one in zip(self._parts, state, strict=True))


@pytest.mark.parametrize("module", JUDGE)
def test_the_judge_knows_nothing_of_what_it_judges(module: str) -> None:
    tree = ast.parse((HERE / f"{module}.py").read_text(encoding="utf-8"))
    imported = [alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names]
    imported += [str(node.module) for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)]
    assert not [name for name in imported if name.split(".")[0] == "kbgen"]
    own = {name.removeprefix("tests.proof.") for name in imported if name.startswith("tests.")}
    assert own <= set(JUDGE)


def test_watching_one_thing_at_a_time_finds_what_the_whole_world_shows() -> None:
    for one in bases():
        for procedure in one.procedures.values():
            broken = _without_proofs(procedure)
            route = lay_out(broken, one.tables)
            parts = list(watches(broken, route, one.tables))
            apart = {danger.identity for part in parts for danger in Walker(route, part).dangers()}
            assert apart == {danger.identity for danger in Walker(route, Together(parts)).dangers()}


def _without_proofs(procedure: Data) -> Data:
    """A procedure in which every other answer leads to the next step, so that much goes wrong."""
    broken = deepcopy(procedure)
    for group in broken["steps"]:
        for step in group["steps"][::2]:
            for answer in step.get("answers", ())[:1]:
                answer["go"] = "next"
    return broken


SOURCES: list[Data] = [
    {"id": "mains", "kind": "electrical", "points": ["q1"]},
    {
        "id": "link", "kind": "stored-electrical", "points": "none", "fed-by": ["mains"],
        "stored": {"resistance": "100 kΩ", "capacitance": "2000 µF", "voltage": "800 V", "safe-voltage": "50 V"},
    },
    {"id": "air", "kind": "pneumatic", "points": ["v1"]},
    {"id": "load", "kind": "gravity", "points": "none"},
]  # fmt: skip

STOP: Data = {"id": "stop", "shut-down": "-", "source": "mains"}
OPEN: Data = {"id": "open", "isolate": "-", "source": "mains"}
LOCK: Data = {"id": "lock", "lock": "-", "source": "mains"}
LET_GO: Data = {"id": "let-go", "release": "-", "source": "mains"}
TEST: Data = {
    "id": "test", "prove": "-", "source": "mains", "by": "voltage-test", "below": "50 V",
    "tester-proved": "before-and-after", "not-proved": "call", "person": "enclosure-open",
}  # fmt: skip
REACH: Data = {"id": "reach", "do": "-", "person": "hands-in"}
UNLOCK: Data = {"id": "unlock", "unlock": "-", "source": "mains"}
CLOSE: Data = {
    "id": "close", "energise": "-", "source": "mains",
    "confirm": ["people-clear", "tools-out", "covers-on", "devices-removed-by-owner"],
}  # fmt: skip
FIXED: Data = {"id": "fixed", "outcome": "-", "result": "fixed"}
CALL: Data = {"id": "call", "outcome": "-", "result": "escalate"}
SOUND = [STOP, OPEN, LOCK, LET_GO, TEST, REACH, UNLOCK, CLOSE, FIXED, CALL]


def _tables(order: str = "osha-1910-147") -> Tables:
    return Tables(({"site": {"isolation-order": order}, "energy-sources": SOURCES},))


def _procedure(*steps: Data, energy: tuple[str, ...] = ("mains",), changes: tuple[Data, ...] = ()) -> Data:
    group = {"person": "outside", "energy": {}, "steps": list(steps)}
    return {"before": {"energy": list(energy)}, "temporary-changes": list(changes) or "none", "steps": [group]}


def _found(*steps: Data, order: str = "osha-1910-147", **more: Any) -> list[Danger]:
    return dangers(_procedure(*steps, **more), _tables(order))


def _kinds(*steps: Data, **more: Any) -> set[Kind]:
    return {danger.kind for danger in _found(*steps, **more)}


def _without(*gone: Data) -> list[Data]:
    return [step for step in SOUND if step not in gone]


def test_a_sound_isolation_is_no_danger() -> None:
    assert not _found(*SOUND)


@pytest.mark.parametrize(
    ("gone", "kind"),
    [
        (STOP, Kind.UNDER_LOAD),
        (OPEN, Kind.LOCK_ON_CLOSED),
        (LOCK, Kind.EARLY_PROOF),
        (LET_GO, Kind.EARLY_PROOF),
        (TEST, Kind.UNPROVED_REACH),
        (UNLOCK, Kind.UNREADY_RESTART),
        (CLOSE, Kind.LEFT_HELD),
    ],
)
def test_each_act_that_is_left_out_is_a_danger(gone: Data, kind: Kind) -> None:
    assert kind in _kinds(*_without(gone))


def test_the_way_to_a_danger_is_told() -> None:
    danger = next(one for one in _found(*_without(TEST)) if one.kind is Kind.UNPROVED_REACH)
    assert danger.path == ("start", "stop", "open", "lock", "let-go", "reach")


@pytest.mark.parametrize(
    ("order", "lock_first", "let_go_first"),
    [("osha-1910-147", True, False), ("nfpa-70e-120-5", False, True), ("en-50110-1", True, True)],
)
def test_the_order_is_that_of_the_site(order: str, lock_first: bool, let_go_first: bool) -> None:
    one_way = [STOP, OPEN, LOCK, LET_GO, TEST, REACH, UNLOCK, CLOSE, FIXED, CALL]
    other_way = [STOP, OPEN, LET_GO, LOCK, TEST, REACH, UNLOCK, CLOSE, FIXED, CALL]
    assert (not _found(*one_way, order=order)) is lock_first
    assert (not _found(*other_way, order=order)) is let_go_first


def test_energy_that_comes_back_undoes_the_proof() -> None:
    again = {**REACH, "id": "reach-again"}
    steps = [STOP, OPEN, LOCK, LET_GO, TEST, REACH, UNLOCK, CLOSE, again, FIXED, CALL]
    assert {one.identity for one in _found(*steps)} == {(Kind.UNPROVED_REACH, "reach-again", "mains")}


def test_a_failed_proof_proves_nothing() -> None:
    assert Kind.UNPROVED_REACH in _kinds(STOP, OPEN, LOCK, LET_GO, {**TEST, "not-proved": "reach"}, REACH, CALL)


@pytest.mark.parametrize(
    "worse", [{"by": "look"}, {"tester-proved": "before"}, {"below": "70 V"}, {"below": "50 bar"}, {"below": "1 kV"}]
)
def test_an_unfit_test_proves_nothing(worse: Data) -> None:
    assert Kind.UNFIT_PROOF in _kinds(STOP, OPEN, LOCK, LET_GO, {**TEST, **worse}, CALL)


DRAIN: Data = {"id": "drain", "release": "-", "source": "link"}
TEST_LINK: Data = {**TEST, "id": "test-link", "source": "link"}


def _wait(time: str) -> Data:
    return {"id": "wait", "wait": time, "discharges": "link"}


@pytest.mark.parametrize(("time", "is_short"), [("693 s", True), ("694 s", False), ("15 min", False)])
def test_a_charge_drains_as_long_as_physics_asks(time: str, is_short: bool) -> None:
    """100 kΩ · 2000 µF · ln(800 V / 50 V) = 554.5 s, times 1.25 = 693.1 s."""
    steps = [STOP, OPEN, LOCK, LET_GO, TEST, DRAIN, _wait(time), TEST_LINK, CALL]
    assert _kinds(*steps, energy=("mains", "link")) == ({Kind.SHORT_WAIT} if is_short else set())


def test_a_charge_does_not_drain_while_it_is_fed() -> None:
    kinds = _kinds(DRAIN, _wait("1 h"), STOP, OPEN, LOCK, LET_GO, TEST, TEST_LINK, CALL, energy=("mains", "link"))
    assert kinds == {Kind.SHORT_WAIT, Kind.EARLY_PROOF}


def test_a_feeder_that_comes_back_fills_it_again() -> None:
    back = [UNLOCK, CLOSE, {**REACH, "out-of-reach": {"mains": "-"}}]
    steps = [STOP, OPEN, LOCK, LET_GO, TEST, DRAIN, _wait("15 min"), TEST_LINK, *back, FIXED, CALL]
    assert _kinds(*steps, energy=("mains", "link")) == {Kind.UNPROVED_REACH}


def test_work_that_is_justified_or_out_of_reach_is_no_danger() -> None:
    live = {**REACH, "live-work": {"reason": "-", "qualification": "skilled"}, "hazards": ["shock"]}
    assert not _found(live, CALL)
    assert not _found({**REACH, "out-of-reach": {"mains": "behind a wall"}}, CALL)
    assert _kinds({**live, "hazards": []}, CALL) == {Kind.UNPROVED_REACH, Kind.BARE_LIVE_WORK}


def test_an_open_enclosure_exposes_to_electricity_alone() -> None:
    look = {"id": "look", "do": "-", "person": "enclosure-open"}
    assert _kinds(look, CALL) == {Kind.UNPROVED_REACH}
    assert not _found(look, CALL, energy=("air", "load"))


@pytest.mark.parametrize("need", ["shut-down", "isolated", "locked", "released", "verified"])
def test_a_need_is_not_met_before_the_act_that_meets_it(need: str) -> None:
    acts = [STOP, OPEN, LOCK, LET_GO, TEST]
    place = ["shut-down", "isolated", "locked", "released", "verified"].index(need)
    asking = {"id": "ask", "do": "-", "energy": {"mains": need}}
    assert Kind.NEED_NOT_MET in _kinds(*acts[:place], asking, *acts[place:], CALL)
    assert not _found(*acts[: place + 1], asking, *acts[place + 1 :], CALL)


def test_nothing_can_be_measured_live_on_an_open_switch() -> None:
    assert _kinds(STOP, OPEN, {"id": "measure", "do": "-", "energy": {"mains": "live"}}, CALL) == {Kind.NEED_NOT_MET}


GUARD: Data = {"id": "guard", "kind": "guard-removed"}
OFF: Data = {"id": "off", "change": "-", "opens": "guard"}
ON: Data = {"id": "on", "undo": "-", "closes": "guard"}


@pytest.mark.parametrize(
    ("steps", "kinds"),
    [
        ([OFF, ON, FIXED], set()),
        ([OFF, CALL], set()),
        ([OFF, FIXED], {Kind.LEFT_CHANGED}),
        ([ON, FIXED], {Kind.CHANGE_OUT_OF_TURN}),
        ([OFF, {**OFF, "id": "off-2"}, ON, FIXED], {Kind.CHANGE_OUT_OF_TURN}),
        ([OFF, CLOSE, ON, FIXED], {Kind.GUARD_OFF_RESTART}),
    ],
)
def test_a_change_is_made_once_and_undone_once(steps: list[Data], kinds: set[Kind]) -> None:
    assert _kinds(*steps, changes=(GUARD,)) == kinds


@pytest.mark.parametrize(
    ("more", "is_sound"),
    [
        ({"checked-at": "compare", "loses": "none"}, True),
        ({"checked-at": "compare", "recorded-at": "save", "loses": ["data"]}, True),
        ({"checked-at": "compare"}, False),
        ({"loses": "none"}, False),
        ({"checked-at": "compare", "loses": ["data"]}, False),
        ({"checked-at": "late", "loses": "none"}, False),
    ],
)
def test_a_unit_is_swapped_after_its_check_and_its_record(more: Data, is_sound: bool) -> None:
    swap = {"id": "guard", "kind": "swapped-unit", **more}
    steps = [{"id": one, "do": "-"} for one in ("compare", "save")]
    found = _kinds(*steps, OFF, {"id": "late", "do": "-"}, ON, FIXED, changes=(swap,))
    assert found == (set() if is_sound else {Kind.UNCHECKED_SWAP})


def _read(*bands: Data, unit: str = "V") -> Data:
    placed = [{"id": f"b{number}", "go": "call", **band} for number, band in enumerate(bands)]
    other = {"not-available": {"go": "call"}}
    return {"id": "read", "read": "-", "unit": unit, "shows": {"from": 0, "to": 100}, "bands": placed, **other}


@pytest.mark.parametrize(
    ("bands", "is_sound"),
    [
        ([{"from": 0, "to": 20}, {"above": 20, "to": 100}], True),
        ([{"to": 20}, {"above": 20}], True),
        ([{"from": 0, "to": "20 V"}, {"above": "0.02 kV", "to": 100}], True),
        ([{"from": 0, "below": 20}, {"above": 20, "to": 100}], False),
        ([{"from": 0, "to": 20}, {"from": 20, "to": 100}], False),
        ([{"from": 0, "to": 20}, {"above": 20, "to": 90}], False),
        ([{"from": 0, "to": "20 mV"}, {"above": 20, "to": 100}], False),
        ([{"from": 0, "to": "20 bar"}, {"above": 20, "to": 100}], False),
    ],
)
def test_every_value_of_a_reading_leads_one_way(bands: list[Data], is_sound: bool) -> None:
    assert _kinds(_read(*bands), CALL) == (set() if is_sound else {Kind.UNREADABLE})


def test_a_loop_is_walked_as_often_as_it_may_be() -> None:
    """The second time round the guard is off already."""
    back = {"id": "back", "do": "-", "go": "off", "at-most": 1, "after-that": "on"}
    found = _found(OFF, back, ON, FIXED, changes=(GUARD,))
    assert [(one.kind, one.path) for one in found] == [
        (Kind.CHANGE_OUT_OF_TURN, ("start", "off", "back", "off")),
    ]


@pytest.mark.parametrize(
    ("steps", "kind"),
    [
        ([{"id": "round", "do": "-", "go": "round"}, CALL], Kind.ENDLESS),
        ([{"id": "lost", "do": "-", "go": "nowhere"}, CALL], Kind.STUCK),
        ([{"id": "last", "do": "-"}], Kind.STUCK),
        ([CALL, {"id": "island", "do": "-", "go": "call"}], Kind.NEVER_REACHED),
        ([{"id": "ask", "ask": "-", "answers": [{"id": "a", "go": "call"}]}, CALL], Kind.NO_WAY_OUT),
    ],
)
def test_a_technician_must_get_on(steps: list[Data], kind: Kind) -> None:
    assert kind in _kinds(*steps)


@pytest.mark.parametrize(
    ("repeats", "begins", "is_late"), [(False, 25, True), (False, 26, False), (True, 5, True), (True, 6, False)]
)
def test_the_longest_way_must_end_before_the_stage(repeats: bool, begins: int, is_late: bool) -> None:
    """Twenty minutes of detour by two rounds of ten, and six for the step itself."""
    window = {"display": "panel", "code": "A1", "stage": "stop", "repeats": repeats}
    steps: list[Data] = [
        {"id": "round", "wait": "10 min", "go": "round", "at-most": 1, "after-that": "look"},
        {"id": "look", "do": "-", "takes": "6 min", "before-stage": window},
    ]
    alarm = {"code": "A1", "stages": [{"id": "stop", "after": f"{begins} min"}]}
    tables = Tables((_tables().documents[0], {"displays": [{"id": "panel", "alarms": [alarm]}]}))
    found = dangers(_procedure(*steps, CALL), tables)
    assert [one.kind for one in found] == ([Kind.TOO_LATE] if is_late else [])


def test_the_example_is_safe() -> None:
    example = base(EXAMPLE)
    assert not [one.told() for data in example.procedures.values() for one in dangers(data, example.tables)]
