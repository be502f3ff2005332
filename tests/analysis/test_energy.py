"""The power state along the example: live, dead once proved, live again."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from kbgen.analysis.energy import States, energy_states, follow
from kbgen.model.record import NOWHERE
from kbgen.model.values import Id
from kbgen.model.words import EnergyState
from kbgen.route.unfold import unfold
from tests.check.knowledge_base import SLIPS, TABLES, KnowledgeBase
from tests.route.test_trace import opened

MAINS = "conveyor-mains"
LIVE, VERIFIED = EnergyState.LIVE, EnergyState.VERIFIED


def _states(base: KnowledgeBase) -> dict[str, States]:
    case = opened(base)
    return dict(energy_states(follow(unfold(case.route), [MAINS], case.shared.energy))[MAINS])


def test_each_step_of_the_isolation_leaves_its_state(tmp_path: Path) -> None:
    states = _states(KnowledgeBase.copy_to(tmp_path))
    at = {key.removeprefix("isolate."): next(iter(states[key])) for key in states if key.startswith("isolate.")}
    assert at == {
        "tell": LIVE,
        "stop": LIVE,
        "open": EnergyState.SHUT_DOWN,
        "padlock": EnergyState.ISOLATED,
        "relieve": EnergyState.LOCKED,
        "test": EnergyState.RELEASED,
    }


def test_it_is_proved_dead_at_the_drum_and_live_at_the_end(tmp_path: Path) -> None:
    states = _states(KnowledgeBase.copy_to(tmp_path))
    for key in ("guard-off", "wet", "clean", "tension", "tighten", "lagging", "guard-on", "restore.unlock"):
        assert states[key] == {VERIFIED}
    assert states["restore.close"] == {EnergyState.ISOLATED}
    assert states["fixed"] == {LIVE}


def test_a_failed_proof_counts_as_live(tmp_path: Path) -> None:
    assert _states(KnowledgeBase.copy_to(tmp_path))["call"] == {LIVE}


def test_a_way_past_the_isolation_brings_live_to_the_drum(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(SLIPS, "cannot-tell: {go: call}", "cannot-tell: {go: guard-off}")
    assert _states(base)["clean"] == {LIVE, VERIFIED}


def test_without_a_proof_nothing_is_proved(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    base.change(TABLES, "            prove:", "            do:")
    assert VERIFIED not in _states(base)["guard-off"]


def test_another_source_stays_live_throughout(tmp_path: Path) -> None:
    case = opened(KnowledgeBase.copy_to(tmp_path))
    air = replace(case.shared.energy[MAINS], id=Id.of("air", NOWHERE), points=())
    walk = unfold(case.route)
    states = energy_states(follow(walk, ["air"], {"air": air}))["air"]
    assert set(states) == set(walk.places) and set(states.values()) == {frozenset({LIVE})}
