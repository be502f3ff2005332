import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from kbgen.analysis import unwind
from tests.commands.conftest import Ran
from tests.commands.test_check import spoil

Run = Callable[..., Ran]


def procedures(done: Ran) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = json.loads(done.out)["procedures"]
    return found


def test_the_table_for_people(base: Path, run: Run) -> None:
    done = run("times", base / "conveyors" / "belt-slips.yaml")
    assert (done.code, done.err) == (0, "")
    assert done.out.splitlines() == [
        "procedures/conveyors/belt-slips.yaml: Belt slips on its drive drum",
        "    shortest    expected     longest",
        "       2 min      31 min      57 min  whole job",
        "      21 min      33 min      49 min  9 part (order-part, about 72 of 100 jobs)",
        "      27 min      27 min      27 min  13 fixed (fixed, about 27 of 100 jobs)",
        "      57 min      57 min      57 min  10 hand-over (escalate, about 1 of 100 jobs or fewer)",
        "       2 min           -       2 min  14 not-this (other-procedure, not reckoned with)",
        "       2 min           -      10 min  15 call (escalate, not reckoned with)",
        "         0.5  person-hours of 1 × machine-fitter",
        "  The causes weigh by judgement.",
        "",
    ]


def test_the_table_for_programs(base: Path, run: Run) -> None:
    (one,) = procedures(run("times", "--format", "json", base / "conveyors" / "drive-trips.yaml"))
    assert one["id"] == "drive-trips" and one["basis"] == "by judgement"
    whole = one["times"]["whole-job"]
    assert whole["longest"] == {"whole": 4140, "working": 3840, "waiting": 300}
    assert whole["expected"]["whole"] == whole["expected"]["working"] + whole["expected"]["waiting"]
    outcomes = {outcome["step"]: outcome for outcome in one["times"]["outcomes"]}
    assert outcomes["fixed"]["shortest"] == {"whole": 900, "working": 900, "waiting": 0}
    assert outcomes["fixed"]["result"] == "fixed" and outcomes["fixed"]["share"] == 0.28125
    assert outcomes["still-energy"]["expected"] is None
    (person,) = one["times"]["person-time"]
    assert (person["qualification"], person["persons"]) == ("electrically-skilled", 1)
    assert person["whole"] == whole["expected"]["whole"]
    assert one["times"]["steps-without-time"] == []


def test_only_what_was_asked_for(base: Path, run: Run) -> None:
    assert [one["id"] for one in procedures(run("times", "--format", "json"))] == [
        "belt-slips", "belt-stands", "drive-trips",
    ]  # fmt: skip
    assert procedures(run("times", "--format", "json", base / "tables")) == []
    assert run("times", base / "conveyors").out == run("times").out


def test_a_procedure_with_errors_is_named_and_the_others_are_shown(base: Path, run: Run) -> None:
    spoil(base / "conveyors" / "belt-slips.yaml", "state: approved", "state: finished")
    done = run("times")
    assert done.code == 1
    assert done.err == "kbgen: procedures/conveyors/belt-slips.yaml has errors: kbgen check shows them.\n"
    assert "drive-trips.yaml: Belt drive trips" in done.out and "belt-slips.yaml:" not in done.out


def test_what_cannot_be_computed_is_said(base: Path, run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(unwind, "MOST_SITUATIONS", 10)
    assert "  Not computed: " in run("times", base / "conveyors" / "belt-slips.yaml").out
    assert procedures(run("times", "--format", "json"))[0]["times"] is None


def test_steps_without_a_time_are_named(base: Path, run: Run) -> None:
    path = base / "conveyors" / "belt-slips.yaml"
    spoil(path, "        takes: 5 min\n", "")
    assert "  Steps without a time: 5." in run("times", path).out


def test_a_folder_that_is_not_there(base: Path, run: Run) -> None:
    done = run("times", "elsewhere")
    assert (done.code, done.out) == (2, "")
    assert "elsewhere" in done.err
