from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from kbgen import __version__, cli
from tests.commands.conftest import Ran

Run = Callable[..., Ran]


def test_the_version(run: Run) -> None:
    assert run("--version") == Ran(0, f"kbgen {__version__}\n", "")


def test_help_names_every_command(run: Run) -> None:
    words = run("--help").out.split()
    for module in cli.COMMANDS:
        assert module.NAME in words


@pytest.mark.parametrize("module", cli.COMMANDS, ids=lambda module: module.NAME)
def test_every_command_explains_itself_and_its_arguments(module: Any, run: Run) -> None:
    done = run(module.NAME, "--help")
    assert (done.code, done.err) == (0, "")
    assert " ".join(module.HELP.split()) in " ".join(done.out.split())


def test_a_command_must_be_named_and_known(run: Run) -> None:
    assert run().code == 2
    assert run("mend").code == 2


def test_a_file_that_the_system_refuses_is_named(base: Path, run: Run) -> None:
    (base / "kbgen-procedure.schema.json").mkdir()
    done = run("schema", "--write", base)
    assert done.code == 2
    assert done.err.startswith("kbgen: ")
    assert "kbgen-procedure.schema.json" in done.err


@pytest.mark.parametrize("command", ["build", "serve"])
def test_a_configuration_that_is_not_there_is_named(command: str, base: Path, run: Run) -> None:
    done = run(command, "-f", "elsewhere.yml")
    assert (done.code, done.out, done.err) == (2, "", "kbgen: there is no configuration “elsewhere.yml”.\n")
