"""The demo knowledge base and its site: copies, builds, and what a test needs to know of their pages."""

from __future__ import annotations

import contextlib
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from mkdocs.commands.build import build
from mkdocs.config import load_config

REPOSITORY = Path(__file__).parents[2]
EXAMPLE = REPOSITORY / "kbgen" / "example"
CONFIG = """\
site_name: Test
docs_dir: procedures
use_directory_urls: false
theme: {name: material, font: false}
plugins: [kbgen]
"""


@dataclass(frozen=True)
class Place:
    """A copy of a knowledge base with its mkdocs.yml, and the site that is built from it."""

    root: Path

    @property
    def procedures(self) -> Path:
        return self.root / "procedures"

    @property
    def site(self) -> Path:
        return self.root / "site"

    def build(self, *, strict: bool = False) -> None:
        """Build within this process."""
        config = load_config(str(self.root / "mkdocs.yml"), strict=strict)
        config.plugins.on_startup(command="build", dirty=False)
        build(config)

    def mkdocs(self, *arguments: str) -> subprocess.CompletedProcess[str]:
        """Build as an author does who calls MkDocs."""
        return subprocess.run(
            [sys.executable, "-m", "mkdocs", "build", *arguments],
            cwd=self.root, env=dict(os.environ), capture_output=True, text=True, check=False, timeout=120,
        )  # fmt: skip

    def beside(self) -> set[str]:
        """Names of what lies beside the site."""
        return {path.name for path in self.root.iterdir()}


def demo_copy(root: Path) -> Place:
    """Copy the demo into an empty folder."""
    shutil.copytree(REPOSITORY / "procedures", root / "procedures")
    shutil.copy(REPOSITORY / "mkdocs.yml", root / "mkdocs.yml")
    return Place(root)


def example_copy(root: Path) -> Place:
    """Copy the small knowledge base that comes with kbgen into an empty folder."""
    shutil.copytree(EXAMPLE, root / "procedures")
    (root / "mkdocs.yml").write_text(CONFIG, encoding="utf-8")
    return Place(root)


def tree(folder: Path) -> dict[str, bytes]:
    """All files of a folder with their bytes."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()
    }


@contextlib.contextmanager
def environment(**values: str) -> Iterator[None]:
    """Set variables for a while."""
    before = {name: os.environ.get(name) for name in values}
    os.environ.update(values)
    try:
        yield
    finally:
        for name, value in before.items():
            if value is None:
                del os.environ[name]
            else:
                os.environ[name] = value
