"""The hooks for pre-commit: their manifest, and what they say of the files of a commit."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

import pytest
import yaml

from tests.commands.conftest import ROOT
from tests.commands.test_check import spoil

MANIFEST = ROOT / ".pre-commit-hooks.yaml"
PROGRAMS = Path(sys.executable).parent
SLIPS, TABLES = "procedures/conveyors/belt-slips.yaml", "procedures/tables/conveyors.yaml"


def _ran(command: Sequence[object], folder: Path) -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "PATH": f"{PROGRAMS}{os.pathsep}{os.environ['PATH']}", "PRE_COMMIT_HOME": "home"}
    return subprocess.run(
        [str(one) for one in command], cwd=folder, env=environment, capture_output=True, text=True, check=False
    )


@pytest.fixture
def repository(base: Path) -> Path:
    """A git repository around the example, with the hooks of the manifest run by the kbgen that is tested."""
    folder = base.parent.resolve()
    hooks = [{**hook, "language": "system"} for hook in yaml.safe_load(MANIFEST.read_text(encoding="utf-8"))]
    config = {"repos": [{"repo": "local", "hooks": hooks}]}
    (folder / ".pre-commit-config.yaml").write_text(yaml.safe_dump(config), encoding="utf-8")
    (folder / "mkdocs.yml").write_text("site_name: Shop\n", encoding="utf-8")
    (folder / "compose.yaml").write_text("services: {}\n", encoding="utf-8")
    for command in (["init", "-q"], ["add", "."]):
        assert _ran(["git", *command], folder).returncode == 0
    return folder


def _run(repository: Path, hook: str, *files: str) -> subprocess.CompletedProcess[str]:
    return _ran([PROGRAMS / "pre-commit", "run", hook, "--verbose", "--files", *files], repository)


def test_the_manifest_is_valid(tmp_path: Path) -> None:
    done = _ran([PROGRAMS / "pre-commit", "validate-manifest", MANIFEST], tmp_path)
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")


def test_sound_files_pass_and_files_of_others_are_passed_over(repository: Path) -> None:
    done = _run(repository, "kbgen-check", SLIPS, TABLES, "mkdocs.yml", "compose.yaml", ".pre-commit-config.yaml")
    assert done.returncode == 0, done.stdout
    assert "nothing to mend" in done.stdout
    assert done.stdout.count("was passed over") == 3


def test_only_files_of_others(repository: Path) -> None:
    assert _run(repository, "kbgen-check", "mkdocs.yml", "compose.yaml").returncode == 0


def test_a_broken_file_stops_the_commit_and_no_other_does(repository: Path) -> None:
    spoil(repository / SLIPS, "takes: 4 min", "takse: 4 min")
    done = _run(repository, "kbgen-check", SLIPS, "mkdocs.yml")
    assert done.returncode == 1
    assert f"{SLIPS}:" in done.stdout and "KB104" in done.stdout
    assert _run(repository, "kbgen-check", TABLES).returncode == 0
    assert _run(repository, "kbgen-check-all", TABLES).returncode == 1


def test_pictures_are_not_handed_over(repository: Path) -> None:
    spoil(repository / SLIPS, "takes: 4 min", "takse: 4 min")
    done = _run(repository, "kbgen-check", "procedures/conveyors/pictures/drum.svg")
    assert (done.returncode, "no files to check" in done.stdout) == (0, True)
