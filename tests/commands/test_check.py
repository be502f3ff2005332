import json
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.commands.conftest import Ran

Run = Callable[..., Ran]


def spoil(path: Path, good: str, bad: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert good in text
    path.write_text(text.replace(good, bad, 1), encoding="utf-8")


def test_a_sound_knowledge_base(base: Path, run: Run) -> None:
    assert run("check", "--as-of", "2026-10-01") == Ran(0, "4 files checked: nothing to mend.\n", "")


def test_an_error_is_shown_with_its_line_and_its_remedy(base: Path, run: Run) -> None:
    path = base / "conveyors" / "belt-slips.yaml"
    spoil(path, "takes: 4 min", "takse: 4 min")
    line = next(number for number, text in enumerate(path.read_text().splitlines(), 1) if "takse" in text)
    done = run("check", "--as-of", "2026-10-01")
    assert done.code == 1
    assert f"procedures/conveyors/belt-slips.yaml:{line}:9: error KB104 (unknown-key): The key “takse”" in done.out
    assert f"    {line} |         takse: 4 min\n" in done.out
    assert "        ^^^^^\n" in done.out
    assert "Mend it: Did you mean “takes”?" in done.out
    assert done.out.splitlines()[-1].startswith("4 files checked: ")


def test_findings_for_programs(base: Path, run: Run) -> None:
    spoil(base / "conveyors" / "belt-stands.yaml", "title: Belt and drum stand still\n", "")
    done = run("check", "--format", "json", "--as-of", "2026-10-01")
    found = json.loads(done.out)["findings"]
    missing = next(one for one in found if one["code"] == "KB105")
    assert done.code == 1
    assert missing["file"] == "procedures/conveyors/belt-stands.yaml"
    assert (missing["line"], missing["column"], missing["severity"], missing["related"]) == (1, 1, "error", [])
    assert json.loads(run("check", "--format", "json", base / "tables").out) == {"findings": []}


def test_only_what_was_asked_for_is_shown(base: Path, run: Run) -> None:
    broken, sound = base / "conveyors" / "belt-slips.yaml", base / "conveyors" / "belt-stands.yaml"
    spoil(broken, "state: approved", "state: finished")
    assert run("check", "--as-of", "2026-10-01", sound).code == 0
    assert run("check", "--as-of", "2026-10-01", sound, broken).code == 1
    assert run("check", "--as-of", "2026-10-01", base / "conveyors").code == 1
    assert run("check", "--as-of", "2026-10-01", base / "tables").code == 0


def test_the_name_of_a_file_does_not_depend_on_how_it_was_asked_for(
    base: Path, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = base / "conveyors" / "belt-slips.yaml"
    spoil(path, "state: approved", "state: finished")
    assert "procedures/conveyors/belt-slips.yaml:5:8: error KB107" in run("check", path.resolve()).out
    monkeypatch.chdir(base / "conveyors")
    assert "belt-slips.yaml:5:8: error KB107" in run("check", "belt-slips.yaml").out


@pytest.mark.parametrize(("day", "is_overdue"), [("2027-09-14", False), ("2027-09-15", True), ("2026-10-01", False)])
def test_reviews_are_judged_by_the_day_that_is_given(day: str, is_overdue: bool, base: Path, run: Run) -> None:
    done = run("check", "--as-of", day)
    assert done.code == 0
    assert ("KB401" in done.out) is is_overdue


def test_the_second_run_says_the_same_as_the_first(base: Path, run: Run) -> None:
    spoil(base / "conveyors" / "belt-slips.yaml", "hazards: [nip-point, shock]", "hazards: [nip-point, shok]")
    first = run("check", "--as-of", "2026-10-01")
    assert first.code == 1
    assert run("check", "--as-of", "2026-10-01") == first
    assert run("check", "--as-of", "2026-10-01", "--no-cache") == first


@pytest.mark.parametrize(
    ("arguments", "why"),
    [(["elsewhere"], "elsewhere"), (["--as-of", "soon"], "--as-of"), (["--format", "xml"], "--format")],
)
def test_what_cannot_be_carried_out(arguments: list[str], why: str, base: Path, run: Run) -> None:
    done = run("check", *arguments)
    assert (done.code, done.out) == (2, "")
    assert why in done.err
