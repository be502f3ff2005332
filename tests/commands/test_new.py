import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml

from kbgen.model.procedure import Procedure
from kbgen.model.shape import RecordShape
from tests.commands.conftest import ROOT, Ran
from tests.schema.files import schema_accepts

Run = Callable[..., Ran]


@pytest.mark.parametrize("source", ["kbgen/example", "procedures"])
def test_a_skeleton_has_no_errors_for_any_family(source: str, tmp_path: Path, run: Run) -> None:
    base = Path(shutil.copytree(ROOT / source, tmp_path / "base"))
    tables = [yaml.safe_load(path.read_text(encoding="utf-8")) for path in (base / "tables").rglob("*.yaml")]
    families = [family["id"] for table in tables for family in table.get("families", ())]
    assert families
    for family in families:
        path = base / family / f"new-{family}.yaml"
        done = run("new", f"new-{family}", "--family", family, "--title", 'It "hums": 50 % # louder', "--in", base)
        assert (done.code, done.err) == (0, "")
        text = path.read_text(encoding="utf-8")
        assert yaml.safe_load(text)["title"] == 'It "hums": 50 % # louder'
        assert schema_accepts(Procedure, text)
        checked = run("check", path)
        assert (checked.code, "error" in checked.out) == (0, False), checked.out


def test_every_key_of_a_procedure_is_explained(base: Path, run: Run) -> None:
    run("new", "belt-tears", "--family", "belt-conveyor")
    text = (base / "belt-conveyor" / "belt-tears.yaml").read_text(encoding="utf-8")
    lines = [line.lstrip("# ") for line in text.splitlines()]
    for key in RecordShape(Procedure).keys:
        assert any(line.startswith(f"{key}:") for line in lines), key


def test_the_schema_that_the_first_line_names_is_where_schema_writes_it(base: Path, run: Run) -> None:
    hinted = run("new", "belt-tears", "--family", "belt-conveyor")
    assert "kbgen schema --write procedures" in hinted.out
    path = base / "belt-conveyor" / "belt-tears.yaml"
    first = path.read_text(encoding="utf-8").splitlines()[0]
    assert first == "# yaml-language-server: $schema=../kbgen-procedure.schema.json"
    assert run("schema", "--write", base).code == 0
    assert (path.parent / first.partition("=")[2]).is_file()
    assert "kbgen schema" not in run("new", "belt-hums", "--family", "belt-conveyor").out


@pytest.mark.parametrize(
    ("id", "family", "why"),
    [
        ("Belt tears", "belt-conveyor", "no permanent name"),
        ("../belt", "belt-conveyor", "no permanent name"),
        ("b" * 61, "belt-conveyor", "no permanent name"),
        ("belt-tears", "belt-conveyer", "Did you mean “belt-conveyor”?"),
        ("belt-slips", "belt-conveyor", "taken by procedures/conveyors/belt-slips.yaml"),
    ],
)
def test_what_does_not_fit_is_refused(id: str, family: str, why: str, base: Path, run: Run) -> None:
    before = sorted(base.rglob("*"))
    done = run("new", id, "--family", family)
    assert done.code == 2
    assert why in done.err
    assert sorted(base.rglob("*")) == before


def test_a_file_is_never_overwritten(base: Path, run: Run) -> None:
    path = base / "belt-conveyor" / "belt-tears.yaml"
    path.parent.mkdir()
    path.write_text("id: [\n", encoding="utf-8")
    done = run("new", "belt-tears", "--family", "belt-conveyor")
    assert (done.code, "exists" in done.err) == (2, True)
    assert path.read_text(encoding="utf-8") == "id: [\n"


def test_empty_tables_are_named(base: Path, run: Run) -> None:
    for path in (base / "tables").glob("*.yaml"):
        content = yaml.safe_load(path.read_text(encoding="utf-8"))
        kept = {key: value for key, value in content.items() if key not in ("hazards", "contacts")}
        path.write_text(yaml.safe_dump(kept, sort_keys=False), encoding="utf-8")
    done = run("new", "belt-tears", "--family", "belt-conveyor")
    assert done.code == 2
    assert "procedures/tables: hazards, contacts." in done.err


def test_a_folder_that_is_not_there_is_named(base: Path, run: Run) -> None:
    done = run("new", "belt-tears", "--family", "belt-conveyor", "--in", "elsewhere")
    assert (done.code, "elsewhere" in done.err) == (2, True)
