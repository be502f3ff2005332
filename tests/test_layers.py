"""Imports go one way: what each part of kbgen may import, as one table."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "kbgen"

# Each part and the parts that it may import besides itself.
READING = {"place", "diagnostics", "source"}
MODEL = READING | {"model"}
ROUTE = MODEL | {"route"}
CORE = ROUTE | {"analysis", "prose"}
MAY_IMPORT: dict[str, set[str]] = {
    "place": set(),
    "diagnostics": {"place"},
    "source": {"place", "diagnostics"},
    "model": READING,
    "route": MODEL,
    "units": set(),
    "formulas": {"units"},
    "language": set(),
    "analysis": ROUTE | {"prose", "units"},
    "library": MODEL,
    "check": CORE | {"formulas", "language", "library", "pictures", "signs", "units"},
    "report": {"place", "diagnostics"},
    "prose": set(),
    "draw": set(),
    "signs": set(),
    "pictures": set(),
    "search": set(),
    "narrowing": set(),
    "memory": set(),
    "cache": set(),
    "cores": set(),
    "results": CORE | {"library", "cache"},
    "examine": CORE | {"results", "language", "library", "check", "cache", "cores", "memory"},
    "settings": MODEL | {"check", "language"},
}

# Beyond the core: the site and the commands stand on top; they may import the core, never the other way round.
ON_TOP = {"pages", "site", "commands", "plugin", "cli", "schema", "skeleton", "upgrade"}


def _files() -> list[Path]:
    return sorted(path for path in PACKAGE.rglob("*.py") if "__pycache__" not in path.parts)


def _part(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


def _imported(path: Path) -> set[str]:
    """The full names of the modules that a file imports, relative imports resolved."""
    names: set[str] = set()
    package = ["kbgen", *path.relative_to(PACKAGE).parts[:-1]]
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            module = ".".join([*base, *([node.module] if node.module else [])])
            names |= {f"{module}.{alias.name}" for alias in node.names}
    return names


def _parts_imported(path: Path) -> set[str]:
    inside = (name.split(".") for name in _imported(path))
    return {parts[1] for parts in inside if parts[0] == "kbgen" and len(parts) > 1} - {_part(path), "__version__"}


def _users_of(library: str) -> set[str]:
    users = (path for path in _files() if any(name.split(".")[0] == library for name in _imported(path)))
    return {path.relative_to(PACKAGE).as_posix() for path in users}


@pytest.mark.parametrize("part", MAY_IMPORT)
def test_a_part_imports_only_what_it_may(part: str) -> None:
    files = [path for path in _files() if _part(path) == part]
    assert files
    for path in files:
        assert _parts_imported(path) <= MAY_IMPORT[part], path.name


def test_every_part_has_its_place_in_the_table() -> None:
    assert {_part(path) for path in _files()} - {"__init__"} <= MAY_IMPORT.keys() | ON_TOP


def test_the_table_itself_has_no_circle() -> None:
    left = dict(MAY_IMPORT)
    while left:
        free = {part for part, others in left.items() if not others & left.keys()}
        assert free, f"a circle among {sorted(left)}"
        left = {part: others for part, others in left.items() if part not in free}


def test_no_packages_import_each_other_in_a_circle() -> None:
    imports: dict[str, set[str]] = {}
    for path in _files():
        imports.setdefault(_part(path), set()).update(_parts_imported(path))
    left = dict(imports)
    while left:
        free = {part for part, others in left.items() if not others & left.keys()}
        assert free, f"a circle among {sorted(left)}"
        left = {part: others for part, others in left.items() if part not in free}


def test_nothing_in_the_core_imports_what_stands_on_top() -> None:
    for path in _files():
        if _part(path) in MAY_IMPORT:
            assert not _parts_imported(path) & ON_TOP, path


def test_only_the_plugin_and_its_commands_know_mkdocs() -> None:
    assert _users_of("mkdocs") <= {"plugin.py", "commands/build.py", "commands/serve.py"}


def test_only_the_reader_knows_yaml() -> None:
    assert _users_of("yaml") == {"source/read.py"}


def test_only_one_module_knows_the_units_library() -> None:
    assert _users_of("pint") == {"units/meaning.py"}
