import re
from collections.abc import Callable
from pathlib import Path

from tests.commands.conftest import Ran

Run = Callable[..., Ran]

ROLE = "Maintenance engineer"


def approve(run: Run, *more: object) -> Ran:
    return run("approve", *more, "--role", ROLE, "--date", "2026-09-21")


def commented(base: Path) -> Path:
    path = base / "conveyors" / "belt-stands.yaml"
    text = path.read_text(encoding="utf-8")
    text = text.replace("state: draft", "state:   draft   # not yet")
    text = text.replace("approvals: none", "approvals: none # by whom")
    path.write_text("# on top\n" + text + "# at the end\n", encoding="utf-8")
    return path


def test_an_approval_is_written_and_nothing_else_changes(base: Path, run: Run) -> None:
    path = commented(base)
    before = path.read_text(encoding="utf-8")
    done = approve(run, path)
    assert done == Ran(0, f"{path}: approved by the {ROLE} on 2026-09-21.\n", "")
    after = path.read_text(encoding="utf-8")
    row = r'\[\{role: "Maintenance engineer", date: 2026-09-21, content: "sha256:[0-9a-f]{32}"\}\]'
    match = re.search(row, after)
    assert match is not None
    assert after.replace(match[0], "none").replace("state:   approved ", "state:   draft ") == before
    assert run("check", "--as-of", "2026-10-01").code == 0


def test_an_approval_ends_with_the_content_it_was_given_for(base: Path, run: Run) -> None:
    path = commented(base)
    approve(run, path)
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("# on top", "# another comment"), encoding="utf-8")
    assert "KB402" not in run("check", path).out
    path.write_text(text.replace("press reset", "press start"), encoding="utf-8")
    void = run("check", path)
    assert (void.code, "KB402" in void.out) == (1, True)
    assert approve(run, path).code == 0
    assert run("check", path).code == 0
    assert path.read_text(encoding="utf-8").count("sha256:") == 1


def test_a_change_of_what_the_tables_say_ends_an_approval_too(base: Path, run: Run) -> None:
    path = commented(base)
    approve(run, path)
    tables = base / "tables" / "conveyors.yaml"
    text = tables.read_text(encoding="utf-8")
    assert "A hand that is drawn in is crushed" in text
    tables.write_text(text.replace("is crushed or torn off", "gets hurt"), encoding="utf-8")
    assert "KB402" in run("check", path).out


def test_a_second_role_is_added_to_the_first(base: Path, run: Run) -> None:
    path = commented(base)
    approve(run, path)
    assert run("approve", path, "--role", 'Safety "officer"', "--date", "2026-09-22").code == 0
    text = path.read_text(encoding="utf-8")
    assert len(set(re.findall(r"sha256:[0-9a-f]{32}", text))) == 1
    assert text.count("sha256:") == 2
    assert run("check", path).code == 0


def test_a_file_with_errors_is_not_approved(base: Path, run: Run) -> None:
    path = commented(base)
    path.write_text(path.read_text(encoding="utf-8").replace("takes: 1 min", "takes: soon", 1), encoding="utf-8")
    before = path.read_bytes()
    done = approve(run, path)
    assert (done.code, done.out) == (1, "")
    assert "KB107" in done.err
    assert "was not approved" in done.err
    assert path.read_bytes() == before


def test_errors_in_another_file_do_not_stand_in_the_way(base: Path, run: Run) -> None:
    path = commented(base)
    other = base / "conveyors" / "belt-slips.yaml"
    other.write_text(other.read_text(encoding="utf-8").replace("takes: 4 min", "takes: soon"), encoding="utf-8")
    assert approve(run, path).code == 0


def test_what_cannot_be_carried_out(base: Path, run: Run) -> None:
    assert "elsewhere.yaml" in approve(run, "elsewhere.yaml").err
    assert approve(run, "elsewhere.yaml").code == 2
    assert run("approve", base / "conveyors" / "belt-stands.yaml").code == 2
