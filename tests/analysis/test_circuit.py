"""What each step makes of a source, and of those that it feeds."""

from __future__ import annotations

from kbgen.analysis.circuit import Circuit, State, circuits
from kbgen.analysis.hold import PRESENT, Hold, meets, state_of
from kbgen.model.record import NOWHERE
from kbgen.model.words import EnergyKind, EnergyState
from kbgen.route.route import Place, Way
from tests.analysis.energy_walks import GROUP, SOURCES, source, step

FEED = source("feed", EnergyKind.ELECTRICAL, points=("q0",))
SWITCHED = source("mains", EnergyKind.ELECTRICAL, points=("q1",), fed_by=("feed",))
LINK = SOURCES["link"]
DRIVE = {"feed": FEED, "mains": SWITCHED, "link": LINK}


def _done(circuit: Circuit, *acts: tuple[str, str] | tuple[str, str, str], answer: str = "") -> State:
    state = circuit.start
    for act, name, *point in acts:
        place = Place("s", "1", step("s", act, name, point[0] if point else None), GROUP, None, {}, ())
        state = circuit.after(place, Way("s", "t", "", answer, NOWHERE), state)
    return state


def _circuit(**known: object) -> Circuit:
    (one,) = circuits(known, known)  # type: ignore[arg-type]
    return one


def _states(circuit: Circuit, state: State) -> dict[str, EnergyState]:
    return {name: state_of(state[number], circuit.points[number]) for name, number in circuit.index.items()}


def test_feeders_stand_before_what_they_feed() -> None:
    assert list(_circuit(**{"link": LINK, "mains": SWITCHED, "feed": FEED}).index) == ["feed", "mains", "link"]


def test_a_feeder_that_nobody_lists_is_followed_too() -> None:
    (one,) = circuits(["link"], DRIVE)
    assert list(one.index) == ["feed", "mains", "link"]


def test_sources_that_feed_one_another_in_a_ring_end_the_search() -> None:
    ring = {
        "one": source("one", EnergyKind.HYDRAULIC, fed_by=("two",)),
        "two": source("two", EnergyKind.HYDRAULIC, fed_by=("one",)),
    }
    (circuit,) = circuits(ring, ring)
    assert circuit.is_fed(1, circuit.start) and not circuit.is_fed(0, circuit.start)


def test_all_isolation_points_must_be_open_and_locked() -> None:
    circuit = _circuit(mains=SOURCES["mains"])
    half = _done(circuit, ("shut-down", "mains"), ("isolate", "mains", "q1"), ("lock", "mains", "q1"))
    assert _states(circuit, half) == {"mains": EnergyState.SHUT_DOWN}
    whole = _done(circuit, ("isolate", "mains"), ("lock", "mains"))
    assert _states(circuit, whole) == {"mains": EnergyState.LOCKED}


def test_half_isolated_is_neither_live_nor_isolated() -> None:
    circuit = _circuit(mains=SOURCES["mains"])
    (hold,) = _done(circuit, ("isolate", "mains", "q1"))
    assert not meets(hold, circuit.points[0], EnergyState.LIVE)
    assert not meets(hold, circuit.points[0], EnergyState.ISOLATED)
    assert meets(hold, circuit.points[0], EnergyState.ANY)


def test_unlocking_voids_proof_and_release() -> None:
    circuit = _circuit(mains=SOURCES["mains"])
    acts = [(act, "mains") for act in ("shut-down", "isolate", "lock", "release", "prove")]
    assert _states(circuit, _done(circuit, *acts)) == {"mains": EnergyState.VERIFIED}
    assert _states(circuit, _done(circuit, *acts, ("unlock", "mains"))) == {"mains": EnergyState.ISOLATED}


def test_a_proof_that_finds_energy_leaves_the_locks_on_and_the_source_live() -> None:
    circuit = _circuit(mains=SOURCES["mains"])
    (hold,) = _done(circuit, ("isolate", "mains"), ("lock", "mains"), ("prove", "mains"), answer="not-proved")
    assert hold.locked == {"q1", "q2"} and state_of(hold, circuit.points[0]) is EnergyState.LIVE


def test_bringing_a_source_back_fills_what_it_feeds() -> None:
    circuit = _circuit(mains=SOURCES["mains"], link=LINK)
    dead = [("isolate", "mains"), ("lock", "mains"), ("release", "link"), ("prove", "link")]
    assert _states(circuit, _done(circuit, *dead))["link"] is EnergyState.VERIFIED
    assert _done(circuit, *dead, ("unlock", "mains"), ("energise", "mains")) == (PRESENT, PRESENT)


def test_a_load_on_its_strut_is_not_lifted_by_the_mains_that_come_back() -> None:
    deck = source("deck", EnergyKind.GRAVITY, points=("strut",), fed_by=("mains",))
    circuit = _circuit(mains=SOURCES["mains"], deck=deck)
    state = _done(circuit, ("isolate", "deck"), ("lock", "deck"), ("isolate", "mains"), ("energise", "mains"))
    assert state[1] == Hold(opened=frozenset({"strut"}), locked=frozenset({"strut"}))


def test_a_charge_drains_only_while_nothing_fills_it() -> None:
    circuit = _circuit(mains=SOURCES["mains"], link=LINK)
    assert _done(circuit, ("wait", "link"))[1].drained == 0
    assert _done(circuit, ("isolate", "mains"), ("wait", "link"))[1].drained == 60
    longest = _done(circuit, ("isolate", "mains"), *[("wait", "link")] * 9)[1].drained
    assert longest == circuit.needs_to_drain[1] == 149


def test_a_switch_passes_on_nothing_while_its_feed_is_off() -> None:
    circuit = _circuit(**DRIVE)
    number = circuit.index["link"]
    assert circuit.is_fed(number, circuit.start)
    for name in ("feed", "mains"):
        opened = _done(circuit, ("isolate", name))
        assert not circuit.is_fed(number, opened)
        assert list(circuit.unlocked_feeders(number, opened)) == [SWITCHED]
        assert list(circuit.unlocked_feeders(number, _done(circuit, ("isolate", name), ("lock", name)))) == []


def test_what_is_emptied_needs_no_isolation_point() -> None:
    circuit = _circuit(load=SOURCES["load"])
    place = Place("s", "1", step("s", "release", "load", empties=True), GROUP, None, {}, ())
    state = circuit.after(place, Way("s", "t", "", "", NOWHERE), circuit.start)
    assert _states(circuit, state) == {"load": EnergyState.RELEASED}
