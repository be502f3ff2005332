"""Windows before an alarm stage: too short on the longest path, repeated, for groups and sequences, or not known."""

from __future__ import annotations

from pathlib import Path

import pytest

from kbgen.analysis import unwind
from kbgen.diagnostics import Diagnostic
from tests.check.knowledge_base import SLIPS, TABLES, KnowledgeBase

TRIPS = "conveyors/drive-trips.yaml"
DRIVES = "tables/drives.yaml"
N12 = "before-stage: {display: line-panel, code: N-12, stage: alarm}"
WATCH = "        picture: drum\n"
AT_THE_DRUM = "  - group: At the drum\n"
WINDOW = "stage: trip}"


@pytest.fixture
def base(tmp_path: Path) -> KnowledgeBase:
    return KnowledgeBase.copy_to(tmp_path)


def only(base: KnowledgeBase, code: str) -> Diagnostic:
    (one,) = base.found(code)
    return one


def line_of(base: KnowledgeBase, one: Diagnostic) -> str:
    return base.text(one.at.path).splitlines()[one.at.line].strip()


def test_a_step_that_is_done_in_time(base: KnowledgeBase) -> None:
    base.change(SLIPS, WATCH, f"{WATCH}        {N12}\n")
    assert not base.found("KB801") and not base.found("KB802")


@pytest.mark.parametrize(("takes", "missed"), [("15 min", False), ("15 min 1 s", True)])
def test_the_end_of_the_step_counts(takes: str, missed: bool, base: KnowledgeBase) -> None:
    good = "        cannot-tell: {go: lengthen}\n        takes: 2 min\n"
    base.change(TRIPS, good, good.replace("2 min", takes))
    assert bool(base.found("KB801")) is missed


def test_it_is_said_how_long_it_takes_and_on_which_path(base: KnowledgeBase) -> None:
    base.change(TRIPS, "        takes: 5 min\n      - id: watch\n", "        takes: 19 min\n      - id: watch\n")
    one = only(base, "KB801")
    assert one.message == (
        "It can take 21 min until step 2, “watch”, is done, but T-21 turns to “Trip” 20 min after its first sign: "
        "start -> 1 measure “Even enough” -> 2 watch."
    )
    assert line_of(base, one) == "before-stage: {display: drive-panel, code: T-21, stage: trip}"


def test_the_time_runs_from_the_first_stage(base: KnowledgeBase) -> None:
    base.change(DRIVES, "            after: 0 s\n", "            after: 14 min\n")
    assert "T-21 turns to “Trip” 6 min after its first sign" in only(base, "KB801").message


def test_without_a_time_of_the_first_stage_it_runs_from_the_fault(base: KnowledgeBase) -> None:
    base.change(DRIVES, "            after: 0 s\n", "")
    assert not base.found("KB801")
    base.change(DRIVES, "            after: 20 min\n", "            after: 6 min\n")
    assert "T-21 turns to “Trip” 6 min after its first sign" in only(base, "KB801").message


def test_all_of_a_group_must_be_done_with_its_loops(base: KnowledgeBase) -> None:
    base.change(SLIPS, AT_THE_DRUM, f"{AT_THE_DRUM}    {N12}\n")
    one = only(base, "KB801")
    assert "It can take 57 min until step 7, “tighten”, is done, but N-12 turns to “Alarm” 10 min" in one.message
    assert one.message.count("-> 7 tighten") == 3
    assert line_of(base, one) == N12


def test_a_step_of_its_own_window_is_not_measured_by_that_of_its_group(base: KnowledgeBase) -> None:
    base.change(SLIPS, "  - group: Look from outside\n", f"  - group: Look from outside\n    {N12}\n")
    assert not base.found("KB801")
    base.change(SLIPS, WATCH, f"{WATCH}        before-stage: {{display: drive-panel, code: T-21, stage: trip}}\n")
    base.change(SLIPS, "        takes: 2 min\n      - id: isolate\n", "        takes: 21 min\n      - id: isolate\n")
    first, second = sorted(base.found("KB801"), key=lambda one: one.message)
    assert "until step 1, “watch”" in first.message
    assert "It can take 29 min until step 2.6, “test”" in second.message


def test_steps_of_a_sequence_must_be_done_in_the_window_of_the_step_that_runs_it(base: KnowledgeBase) -> None:
    base.change(SLIPS, "        run: isolate-and-prove\n", f"        run: isolate-and-prove\n        {N12}\n")
    assert not base.found("KB801")
    base.change(TABLES, "            tools: [voltage-tester]\n            takes: 3 min\n",
                "            tools: [voltage-tester]\n            takes: 4 min\n")  # fmt: skip
    assert "until step 2.6, “test”, is done" in only(base, "KB801").message


def test_waiting_counts(base: KnowledgeBase) -> None:
    window = "        before-stage: {display: drive-panel, code: T-21, stage: trip}\n"
    base.change(TRIPS, window, "")
    base.change(TRIPS, "        discharges: drive-dc-link\n", f"        discharges: drive-dc-link\n{window}")
    assert "It can take 32 min until step 11, “discharge”" in only(base, "KB801").message


def test_a_set_up_counts(base: KnowledgeBase) -> None:
    base.change(TRIPS, "pictures: none\n", "pictures: none\nset-ups: [{id: lamp, text: A lamp, takes: 14 min}]\n")
    base.change(TRIPS, WINDOW, f"{WINDOW}\n        set-up: [lamp]")
    assert "It can take 21 min" in only(base, "KB801").message


def test_in_windows_that_repeat_each_step_must_fit_by_itself(base: KnowledgeBase) -> None:
    base.change(TRIPS, WINDOW, "stage: trip, repeats: yes}")
    base.change(TRIPS, "        takes: 5 min\n      - id: watch\n", "        takes: 90 min\n      - id: watch\n")
    assert not base.found("KB801")
    good = "        cannot-tell: {go: lengthen}\n        takes: 2 min\n"
    base.change(TRIPS, good, good.replace("2 min", "20 min 1 s"))
    assert only(base, "KB801").message == (
        "Step 2, “watch”, takes 20 min 1 s by itself, but T-21 turns to “Trip” 20 min after its first sign, "
        "in every new window."
    )


def test_a_stage_without_a_time(base: KnowledgeBase) -> None:
    base.change(DRIVES, "            after: 20 min\n", "")
    one = only(base, "KB802")
    assert one.message == "When T-21 turns to “Trip” is not in the alarm list."
    (label,) = one.labels
    assert label.at.path == DRIVES and "id: trip" in base.text(DRIVES).splitlines()[label.at.line]
    assert not base.found("KB801")


def test_too_many_paths_to_tell(base: KnowledgeBase, monkeypatch: pytest.MonkeyPatch) -> None:
    base.change(SLIPS, AT_THE_DRUM, f"{AT_THE_DRUM}    {N12}\n")
    monkeypatch.setattr(unwind, "MOST_SITUATIONS", 10)
    assert "combinations" in only(base, "KB802").message
    assert not base.found("KB801")


def test_an_endless_loop_is_left_to_its_own_rule(base: KnowledgeBase) -> None:
    base.change(SLIPS, AT_THE_DRUM, f"{AT_THE_DRUM}    {N12}\n")
    base.change(SLIPS, "        at-most: 2\n        after-that: hand-over\n", "")
    assert base.found("KB303") and not base.found("KB801") and not base.found("KB802")


def test_an_unknown_code_is_left_to_its_own_rule(base: KnowledgeBase) -> None:
    base.change(SLIPS, WATCH, f"{WATCH}        {N12.replace('N-12', 'N-99')}\n")
    assert base.found("KB209") and not base.found("KB801") and not base.found("KB802")
