"""The rules of open items on branches and loops: what is left open, what is out of turn, what is swapped unchecked."""

from __future__ import annotations

from pathlib import Path

import pytest

from kbgen.diagnostics import Diagnostic
from tests.check.knowledge_base import SLIPS, KnowledgeBase

TRIPS = "conveyors/drive-trips.yaml"

CARRIES = 'id: carries, answer: "Yes", go: shorten'
TRIPS_AGAIN = '{id: trips-again, answer: "No", go: shorten}'
OBSERVE_CANNOT_TELL = "cannot-tell: {go: shorten}"
CLOSES = "        closes: long-delay\n        takes: 1 min\n"
HAND_OVER = """        outcome: The belt does not hold its tension.
        result: escalate
        contact: maintenance-lead
        report: [How far the belt gave before and after tightening]
"""
SWAP_KIND = "    kind: swapped-unit\n"
LOSES = "    loses: [data]\n"
CHECKED = "    checked-at: compare-plates\n"
RECORDED = "    recorded-at: save-parameters\n"
PARAMETER_ORIGINAL = "    original: Trip delay 2 s\n"


def _found(tmp_path: Path, file: str, *changes: tuple[str, str]) -> dict[str, list[Diagnostic]]:
    base = KnowledgeBase.copy_to(tmp_path)
    for good, bad in changes:
        base.change(file, good, bad)
    found: dict[str, list[Diagnostic]] = {"KB601": [], "KB602": [], "KB603": []}
    for one in base.examine().found:
        found.setdefault(one.rule.code, []).append(one)
    return found


def _at(one: Diagnostic, base: Path, file: str) -> str:
    return (base / "kb" / file).read_text(encoding="utf-8").splitlines()[one.at.line].strip()


def test_a_branch_that_does_not_put_the_guard_back_is_told_with_what_is_lost(tmp_path: Path) -> None:
    found = _found(tmp_path, SLIPS, ("cannot-tell: {go: clean}", "cannot-tell: {go: restore}"))
    (one,) = found["KB601"]
    assert one.message == (
        "“Guard of the drive drum taken off” may still be open at step 13, “fixed”: start -> "
        "1 watch “Yes, the drum turns” -> ... -> 2.6 test “Proved” -> 3 guard-off -> 4 wet “Cannot tell” -> ... -> "
        "13 fixed. The protection that is lost then: Nothing keeps a hand away from the nip point."
    )
    assert "Guard on, four screws tight" in one.help and "closes: guard-off" in one.help
    assert _at(one, tmp_path, SLIPS) == "- id: fixed"
    (label,) = one.labels
    assert label.text == "step 3 opens “guard-off”"
    assert not found["KB602"]


def test_what_is_open_on_every_path_is_still_open(tmp_path: Path) -> None:
    found = _found(tmp_path, SLIPS, ("        undo: Put the guard back", "        do: Put the guard back"),
                   ("        closes: guard-off\n", ""))  # fmt: skip
    (one,) = found["KB601"]
    assert "“Guard of the drive drum taken off” is still open at step 13, “fixed”" in one.message


def test_going_over_to_another_procedure_leaves_nothing_open_either(tmp_path: Path) -> None:
    other = HAND_OVER.replace("escalate", "other-procedure\n        procedure: belt-stands")
    found = _found(tmp_path, SLIPS, (HAND_OVER, other))
    assert [_at(one, tmp_path, SLIPS) for one in found["KB601"]] == ["- id: hand-over"]


def test_handing_over_may_leave_a_change_open(tmp_path: Path) -> None:
    assert not _found(tmp_path, TRIPS, (CARRIES, CARRIES.replace("shorten", "call-service")))["KB601"]


def test_each_outcome_and_each_change_is_a_finding_of_its_own(tmp_path: Path) -> None:
    found = _found(
        tmp_path,
        TRIPS,
        (CARRIES, CARRIES.replace("shorten", "fixed")),
        (TRIPS_AGAIN, TRIPS_AGAIN.replace("shorten", "save-parameters")),
        ("result: order-part", "result: fixed"),
    )
    told = sorted((_at(one, tmp_path, TRIPS), one.message.partition("”")[0]) for one in found["KB601"])
    assert told == [
        ("- id: fixed", "“Trip delay of the drive lengthened"),
        ("- id: fixed-clamp", "“Trip delay of the drive lengthened"),
        ("- id: part", "“Spare drive in the place of the belt's own"),
        ("- id: part", "“Trip delay of the drive lengthened"),
    ]
    assert not found["KB602"]


def test_a_loop_that_makes_the_change_again_overwrites_the_original(tmp_path: Path) -> None:
    again = TRIPS_AGAIN.replace("go: shorten", "go: lengthen, at-most: 2, after-that: shorten")
    found = _found(tmp_path, TRIPS, (TRIPS_AGAIN, again))
    (one,) = found["KB602"]
    assert one.message == (
        "Step 3, “lengthen”, opens the change “long-delay”, which is open already on this path, so that its original "
        "value is overwritten: start -> 1 measure “Even enough” -> 2 watch “No” -> 3 lengthen -> 4 observe “No” -> "
        "3 lengthen."
    )
    assert [label.text for label in one.labels] == ["step 3 opens it before"]
    assert not found["KB601"]


def test_a_loop_that_puts_back_before_it_changes_again_is_fine(tmp_path: Path) -> None:
    load = '{id: few, answer: "No", go: save-parameters, '
    found = _found(
        tmp_path, TRIPS, (load, load.replace("save-parameters", "lengthen, at-most: 2, after-that: isolate"))
    )
    assert not found["KB601"] and not found["KB602"]


def test_a_branch_past_the_change_has_nothing_to_put_back(tmp_path: Path) -> None:
    later = '{id: later, answer: "No", go: lengthen}'
    found = _found(tmp_path, TRIPS, (later, later.replace("lengthen", "shorten")))
    (one,) = found["KB602"]
    assert "Step 5, “shorten”, closes the change “long-delay”, which is not open on this path: start -> " in one.message
    assert one.labels == ()


def test_putting_back_twice_names_the_first_time(tmp_path: Path) -> None:
    twice = f"{CLOSES}      - id: shorten-again\n        undo: Set it back to 2 s again.\n{CLOSES}"
    found = _found(tmp_path, TRIPS, (CLOSES, twice))
    (one,) = found["KB602"]
    assert "Step 6, “shorten-again”, closes" in one.message and "-> 5 shorten -> 6 shorten-again." in one.message
    assert [label.text for label in one.labels] == ["step 5 closes it before"]


@pytest.mark.parametrize(
    ("good", "bad", "told"),
    [
        (CHECKED, "", "The change “spare-in” swaps a unit, but no step shows that the unit put in fits."),
        (LOSES, "", "The change “spare-in” does not say what can be lost for good when it is made."),
        (RECORDED, "", "The change “spare-in” can lose data for good, but no step saves that before."),
        (
            f"{LOSES}{CHECKED}{RECORDED}",
            f"    loses: [data, reference-position]\n{CHECKED}",
            "The change “spare-in” can lose data and the reference position for good, but no step saves that before.",
        ),
        (SWAP_KIND, "    kind: disconnected-feedback\n", ""),
        (LOSES, "    loses: none\n", ""),
        (f"{LOSES}{CHECKED}{RECORDED}", f"    loses: none\n{CHECKED}", ""),
        (
            PARAMETER_ORIGINAL,
            f"{PARAMETER_ORIGINAL}    loses: [data]\n",
            "The change “long-delay” can lose data for good, but no step saves that before.",
        ),
        (RECORDED, "    recorded-at: isolate\n", ""),
    ],
)
def test_a_swap_says_what_it_needs(good: str, bad: str, told: str, tmp_path: Path) -> None:
    assert [one.message for one in _found(tmp_path, TRIPS, (good, bad))["KB603"]] == ([told] if told else [])


def test_a_disconnected_feedback_needs_no_check_but_what_it_loses(tmp_path: Path) -> None:
    kind = (SWAP_KIND, "    kind: disconnected-feedback\n")
    found = _found(tmp_path, TRIPS, kind, (f"{LOSES}{CHECKED}{RECORDED}", ""))
    (one,) = found["KB603"]
    assert "does not say what can be lost" in one.message


def test_the_path_past_the_step_that_saves_is_told(tmp_path: Path) -> None:
    at_once = '{id: at-once, answer: "Yes", go: save-parameters}'
    found = _found(tmp_path, TRIPS, (at_once, at_once.replace("save-parameters", "compare-plates")))
    (one,) = found["KB603"]
    assert one.message.startswith(
        "Step “save-parameters” is not passed before step 15, “swap”, on this path: "
        "start -> 1 measure “Even enough” -> 2 watch “Yes” -> 8 compare-plates “Yes” -> "
    )
    assert one.message.endswith("-> 13 clamps “No” -> 15 swap. Then data can be lost for good.")
    assert _at(one, tmp_path, TRIPS) == "recorded-at: save-parameters"
    assert [label.text for label in one.labels] == ["step 15 makes the change"]


def test_each_step_that_a_path_leaves_out_is_a_finding(tmp_path: Path) -> None:
    few = '{id: few, answer: "No", go: save-parameters, '
    found = _found(tmp_path, TRIPS, (few, few.replace("save-parameters", "isolate")))
    assert sorted(_at(one, tmp_path, TRIPS) for one in found["KB603"]) == [
        "checked-at: compare-plates",
        "recorded-at: save-parameters",
    ]


def test_a_step_that_comes_only_after_the_swap_is_too_late(tmp_path: Path) -> None:
    found = _found(tmp_path, TRIPS, (CHECKED, "    checked-at: load-parameters\n"))
    (one,) = found["KB603"]
    assert one.message.endswith("Then nobody knows whether the unit fits.")


def test_the_change_itself_is_too_late_for_its_own_check(tmp_path: Path) -> None:
    assert len(_found(tmp_path, TRIPS, (CHECKED, "    checked-at: swap\n"))["KB603"]) == 1


def test_a_sequence_that_is_left_out_on_a_branch_does_not_count_as_passed(tmp_path: Path) -> None:
    same = '{id: same, answer: "Yes", go: isolate}'
    found = _found(tmp_path, TRIPS, (RECORDED, "    recorded-at: isolate\n"), (same, same.replace("isolate", "drain")),
                   ("cannot-tell: {go: save-parameters}", "cannot-tell: {go: isolate}"))  # fmt: skip
    assert "recorded-at: isolate" in {_at(one, tmp_path, TRIPS) for one in found["KB603"]}
