import shutil
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest

from kbgen.cli import main

ROOT = Path(__file__).parents[2]


class Ran(NamedTuple):
    code: int
    out: str
    err: str


@pytest.fixture
def base(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of the example knowledge base, beside which commands run."""
    monkeypatch.chdir(tmp_path)
    return Path(shutil.copytree(ROOT / "kbgen" / "example", "procedures"))


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Callable[..., Ran]:
    """Run a command as the shell would."""

    def runner(*arguments: object) -> Ran:
        capsys.readouterr()
        try:
            code = main([str(one) for one in arguments])
        except SystemExit as stopped:
            code = int(stopped.code or 0)
        return Ran(code, *capsys.readouterr())

    return runner
