"""kbgen check follows the settings in mkdocs.yml, wherever it is called from; the plugin follows the same."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.commands.conftest import Ran
from tests.site.demo import CONFIG, example_copy

Run = Callable[..., Ran]

SLIPS = "conveyors/belt-slips.yaml"
BAD = "do: Please wipe drum and belt dry."
OFF = "plugins: [kbgen: {language: {off: [weak-word]}}]"
WRONG = "plugins:\n  - kbgen:\n      language: {off: [weak-wort]}\n"


@pytest.fixture
def weak(base: Path) -> Path:
    """The example with a weak word in it."""
    path = base / SLIPS
    path.write_text(path.read_text(encoding="utf-8").replace("do: Wipe drum and belt dry.", BAD), encoding="utf-8")
    return base


def configure(folder: Path, plugins: str) -> None:
    (folder / "mkdocs.yml").write_text(CONFIG.replace("plugins: [kbgen]", plugins), encoding="utf-8")


def test_a_rule_is_switched_off_for_a_knowledge_base(weak: Path, run: Run) -> None:
    assert "KB905" in run("check").out
    configure(weak.parent, OFF)
    assert "KB905" not in run("check").out
    assert "KB905" not in run("check", weak / SLIPS).out


def test_the_settings_go_with_the_knowledge_base(weak: Path, run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    configure(weak.parent, OFF)
    (weak.parent / "elsewhere").mkdir()
    monkeypatch.chdir(weak.parent / "elsewhere")
    configure(Path(), "plugins: [kbgen]")
    assert "KB905" not in run("check", "../procedures").out


def test_a_configuration_without_kbgen_is_passed_over(weak: Path, run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    configure(weak.parent, OFF)
    configure(weak, "plugins: [search]")
    assert "KB905" not in run("check").out


def test_the_current_folder_has_the_last_word_on_what_lies_elsewhere(
    weak: Path, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    (weak.parent / "site-of-it").mkdir()
    monkeypatch.chdir(weak.parent / "site-of-it")
    configure(Path(), OFF.replace("kbgen: {", "kbgen: {knowledge_base: ../procedures, "))
    assert "KB905" not in run("check", weak).out


def test_a_wrong_setting_is_a_finding_with_its_place(weak: Path, run: Run) -> None:
    configure(weak.parent, WRONG)
    line = (
        (weak.parent / "mkdocs.yml")
        .read_text(encoding="utf-8")
        .splitlines()
        .index("      language: {off: [weak-wort]}")
    )
    done = run("check", weak / SLIPS)
    assert done.code == 1
    assert f"mkdocs.yml:{line + 1}:24: error KB107" in done.out
    assert "Did you mean “weak-word”?" in done.out


def test_checking_with_settings_does_not_load_mkdocs(weak: Path) -> None:
    configure(weak.parent, OFF)
    script = (
        "import sys; from kbgen.cli import main; main(['check', '--no-cache']); "
        "sys.exit(any(name.partition('.')[0] in ('mkdocs', 'material') for name in sys.modules))"
    )
    assert subprocess.run([sys.executable, "-c", script], cwd=weak.parent, check=False).returncode == 0


def test_the_plugin_follows_the_settings(tmp_path: Path) -> None:
    place = example_copy(tmp_path)
    path = place.procedures / "conveyors/drive-trips.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("do: Save all", "do: Please save all"), encoding="utf-8")
    assert "KB905" in place.mkdocs().stderr
    configure(tmp_path, OFF)
    done = place.mkdocs("--strict")
    assert (done.returncode, "KB905" in done.stderr) == (0, False), done.stderr


def test_a_wrong_setting_stops_the_build_and_names_its_line(tmp_path: Path) -> None:
    place = example_copy(tmp_path)
    configure(tmp_path, WRONG)
    done = place.mkdocs()
    assert done.returncode == 1
    assert "mkdocs.yml:7:24: error KB107" in done.stderr and "Traceback" not in done.stderr
    assert not place.site.exists()
