import json
from collections.abc import Callable
from pathlib import Path

from tests.commands.conftest import ROOT, Ran

Run = Callable[..., Ran]


def test_the_schema_is_printed(run: Run) -> None:
    assert json.loads(run("schema").out)["title"] == "Procedure"
    assert json.loads(run("schema", "--tables").out)["title"] == "Tables"


def test_both_schemas_are_written_as_they_ship(tmp_path: Path, run: Run) -> None:
    assert run("schema", "--write", tmp_path).code == 0
    written = sorted(path.name for path in tmp_path.iterdir())
    assert written == ["kbgen-procedure.schema.json", "kbgen-tables.schema.json"]
    for name in written:
        assert (tmp_path / name).read_bytes() == (ROOT / "kbgen" / "schema" / name).read_bytes()


def test_a_folder_that_is_not_there_is_named(tmp_path: Path, run: Run) -> None:
    done = run("schema", "--write", tmp_path / "elsewhere")
    assert (done.code, "elsewhere" in done.err) == (2, True)
