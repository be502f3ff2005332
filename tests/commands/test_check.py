import json
import os
import shlex
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from kbgen.commands.check import FORMATS
from tests.commands.conftest import Ran

Run = Callable[..., Ran]


def spoil(path: Path, good: str, bad: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert good in text
    path.write_text(text.replace(good, bad, 1), encoding="utf-8")


def count(base: Path) -> int:
    return len(list(base.rglob("*.yaml")))


def test_a_sound_knowledge_base(base: Path, run: Run) -> None:
    done = run("check", "--as-of", "2026-10-01")
    assert done == Ran(0, f"{count(base)} files checked: nothing to mend.\n", "")


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
    assert done.out.splitlines()[-1].startswith(f"{count(base)} files checked: ")


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


def test_what_was_found_is_the_same_in_every_format(base: Path, run: Run) -> None:
    spoil(base / "conveyors" / "belt-slips.yaml", "takes: 4 min", "takse: 4 min")
    shown = {form: run("check", "--format", form, "--as-of", "2026-10-01") for form in FORMATS}
    assert {done.code for done in shown.values()} == {1}
    found = json.loads(shown["json"].out)["findings"]
    results = json.loads(shown["sarif"].out)["runs"][0]["results"]
    assert [one["ruleId"] for one in results] == [one["code"] for one in found]
    lines = shown["github"].out.splitlines()
    assert len(lines) == len(found)
    for one, line in zip(found, lines, strict=True):
        assert line.startswith(f"::{one['severity']} file={one['file']},line={one['line']},")


def test_programs_are_told_paths_below_the_repository(base: Path, run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    spoil(base / "conveyors" / "belt-slips.yaml", "state: approved", "state: finished")
    (base.parent / ".git").mkdir()
    monkeypatch.chdir(base / "conveyors")
    path = "procedures/conveyors/belt-slips.yaml"
    assert run("check", "belt-slips.yaml", "--format", "github").out.startswith(f"::error file={path},line=5,")
    (result, *_) = json.loads(run("check", "belt-slips.yaml", "--format", "sarif").out)["runs"][0]["results"]
    assert result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] == path


@pytest.mark.parametrize(("weight", "code"), [("error", 0), ("warning", 1), ("advice", 1)])
def test_how_much_a_finding_must_weigh_to_fail(weight: str, code: int, base: Path, run: Run) -> None:
    """A review that is overdue is a warning."""
    done = run("check", "--as-of", "2030-01-01", "--fail-on", weight)
    assert ("KB401" in done.out, done.code) == (True, code)
    assert run("check", "--as-of", "2026-10-01", "--fail-on", weight).code == 0
    spoil(base / "conveyors" / "belt-slips.yaml", "takes: 4 min", "takse: 4 min")
    assert run("check", "--as-of", "2026-10-01", "--fail-on", weight).code == 1


def test_files_of_no_knowledge_base_are_passed_over(base: Path, run: Run) -> None:
    for name in ("mkdocs.yml", "compose.yaml"):
        (base.parent / name).write_text("services: {}\n", encoding="utf-8")
    spoil(base / "conveyors" / "belt-slips.yaml", "state: approved", "state: finished")
    done = run("check", "mkdocs.yml", "compose.yaml")
    assert (done.code, done.out) == (0, "0 files checked: nothing to mend.\n")
    assert done.err.splitlines() == [
        f"kbgen: {name} belongs to no knowledge base and was passed over." for name in ("mkdocs.yml", "compose.yaml")
    ]
    mixed = run("check", "mkdocs.yml", base / "conveyors" / "belt-slips.yaml")
    assert (mixed.code, mixed.out.count("KB107")) == (1, 1)


def test_a_procedure_beside_no_tables_is_checked_all_the_same(base: Path, run: Run) -> None:
    (base.parent / "first.yaml").write_text("kbgen: 1\nid: first\n", encoding="utf-8")
    done = run("check", "first.yaml")
    assert (done.code, "KB105" in done.out) == (1, True)


def test_files_of_several_knowledge_bases_are_checked_together(base: Path, run: Run) -> None:
    other = Path(shutil.copytree(base, base.parent / "other"))
    for one in (base, other):
        spoil(one / "conveyors" / "belt-slips.yaml", "state: approved", "state: finished")
    done = run("check", *(one / "conveyors" / "belt-slips.yaml" for one in (base, other)))
    assert (done.code, done.out.count("KB107")) == (1, 2)
    assert done.out.splitlines()[-1].startswith(f"{2 * count(base)} files checked: 2 errors")


def test_text_of_an_author_gives_no_orders_to_a_terminal_or_a_build_server(base: Path, run: Run) -> None:
    bad = 'state: "\\n::stop-commands::x \\e[2J \\u202e"'
    spoil(base / "conveyors" / "belt-slips.yaml", "state: approved", bad)
    for form in ("text", "github"):
        out = run("check", "--format", form, "--as-of", "2026-10-01").out
        assert "stop-commands" in out
        assert not any(line.lstrip().startswith("::stop") for line in out.splitlines())
    assert run("check").out.replace("\n", "").isprintable()


def _piped(base: Path, reader: str, *arguments: str) -> subprocess.CompletedProcess[str]:
    command = shlex.join([sys.executable, "-m", "kbgen.cli", *arguments])
    line = f"set -o pipefail; {command} | {reader}"
    return subprocess.run(["bash", "-c", line], cwd=base.parent, capture_output=True, text=True, check=False)


@pytest.mark.parametrize("arguments", [("check", "--format", "sarif"), ("check", "--format", "text"), ("explain",)])
def test_a_reader_that_goes_away_early_is_no_error(arguments: tuple[str, ...], base: Path) -> None:
    done = _piped(base, "true", *arguments)
    assert (done.returncode, done.stderr) == (0, "")


def test_the_verdict_does_not_depend_on_the_reader(base: Path) -> None:
    spoil(base / "conveyors" / "belt-slips.yaml", "state: approved", "state: finished")
    done = _piped(base, "true", "check")
    assert (done.returncode, done.stderr) == (1, "")


def test_a_name_that_is_not_text_does_not_stop_the_report(base: Path) -> None:
    path = os.fsencode(base / "conveyors") + b"/belt-\xff.yaml"
    Path(os.fsdecode(path)).write_text("kbgen: 1\n", encoding="utf-8")
    for form in FORMATS:
        done = _piped(base, "cat", "check", "--format", form)
        assert (done.returncode, done.stderr) == (1, "")


def test_help_says_what_the_exit_codes_mean(run: Run) -> None:
    words = " ".join(run("check", "--help").out.split())
    for part in ("Exit code 0:", "1:", "2: wrong use", "--fail-on", "sarif", "github"):
        assert part in words


@pytest.mark.parametrize(
    ("arguments", "why"),
    [
        (["elsewhere"], "elsewhere"),
        (["--as-of", "soon"], "--as-of"),
        (["--format", "xml"], "--format"),
        (["--fail-on", "x"], "--fail-on"),
    ],
)
def test_what_cannot_be_carried_out(arguments: list[str], why: str, base: Path, run: Run) -> None:
    done = run("check", *arguments)
    assert (done.code, done.out) == (2, "")
    assert why in done.err
