"""Programs that the tests of the site cannot do without; a missing one is a failure that names it, never a skip."""

from __future__ import annotations

import shutil
from pathlib import Path

NODE_MODULES = Path(__file__).parents[1] / "node_modules"
AXE = NODE_MODULES / "axe-core" / "axe.min.js"
VNU = NODE_MODULES / "vnu-jar" / "build" / "dist" / "vnu.jar"


class MissingError(AssertionError):
    """Something that the tests need is not installed."""


def program(name: str, package: str) -> str:
    """Path of a program; raise MissingError with the package to install."""
    found = shutil.which(name)
    if found is None:
        raise MissingError(f"“{name}” is not installed. Install the package {package} (or run “make test” as root).")
    return found


def node_file(path: Path) -> Path:
    """A file that npm installs; raise MissingError with the command to run."""
    if not path.is_file():
        raise MissingError(f"{path.name} is not installed. Run “npm ci --ignore-scripts --prefix tests”.")
    return path
