"""How fast sites are built: kbgen against plain MkDocs with Material on the same text, in one run.

    python -m tests.benchmarks.build_speed [--sizes 1000 3000] [--json FILE]

CPU seconds are those of the user in a process of their own; compare them, since wall time depends on the machine's
other work. Every kbgen build of a size starts with an empty cache; a rebuild follows one changed file.
"""

from __future__ import annotations

import argparse
import json
import os
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

from tests.benchmarks.generate import write_sites

_BUILD = ("-m", "mkdocs", "build", "--quiet")
_CHECK = ("-m", "kbgen.cli", "check")


@dataclass(frozen=True)
class Cost:
    """What a process took, in seconds."""

    user: float
    wall: float


@dataclass(frozen=True)
class Measured:
    """The costs at one number of procedures."""

    procedures: int
    plain: Cost
    build: Cost
    rebuild: Cost
    check: Cost
    check_again: Cost
    check_one: Cost

    @property
    def rows(self) -> tuple[tuple[str, Cost], ...]:
        """Names for people, in the order of the table."""
        return (
            ("plain MkDocs + Material", self.plain),
            ("kbgen, nothing cached", self.build),
            ("kbgen, one file changed", self.rebuild),
            ("kbgen check, nothing cached", self.check),
            ("kbgen check, all cached", self.check_again),
            ("kbgen check of one file", self.check_one),
        )


def measure(count: int, folder: Path) -> Measured:
    """Write and build both sites below an empty folder."""
    write_sites(count, folder)
    ours, one = folder / "kbgen", next((folder / "kbgen/procedures").glob("*/station-*1.yaml"))
    return Measured(
        procedures=count,
        plain=_cost(_BUILD, folder / "plain"),
        build=_cost(_BUILD, ours),
        rebuild=_cost_of_rebuild(ours, one),
        check=_cost((*_CHECK, "procedures"), ours, cache="check"),
        check_again=_cost((*_CHECK, "procedures"), ours, cache="check"),
        check_one=_cost((*_CHECK, str(one.relative_to(ours))), ours, cache="check"),
    )


def _cost_of_rebuild(site: Path, changed: Path) -> Cost:
    text = changed.read_text(encoding="utf-8")
    changed.write_text(text.replace("Hold the rule against", "Lay the rule against"), encoding="utf-8")
    return _cost(_BUILD, site)


def _cost(arguments: Sequence[str], folder: Path, cache: str = "build") -> Cost:
    # The cache lies beside the sites, so that nobody's own cache is used or changed.
    environment = {**os.environ, "XDG_CACHE_HOME": str(folder.parent / f"cache-{cache}"), "NO_MKDOCS_2_WARNING": "1"}
    started, before = time.perf_counter(), resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime
    subprocess.run([sys.executable, *arguments], cwd=folder, env=environment, check=True, stdout=subprocess.DEVNULL)
    user = resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime - before
    return Cost(round(user, 2), round(time.perf_counter() - started, 2))


def table(measured: Sequence[Measured]) -> str:
    """Show the costs as a Markdown table; ratios are of user seconds to those of plain MkDocs."""
    lines = ["| procedures | what | user s | wall s | ms each | ratio |", "| ---: | --- | ---: | ---: | ---: | ---: |"]
    for one in measured:
        lines += [_row(one, name, cost) for name, cost in one.rows]
        part = one.rebuild.user / one.build.user
        lines.append(f"| {one.procedures:,} | rebuild as a part of the build | | | | {part:.2f} |")
    return "\n".join(lines)


def _row(one: Measured, name: str, cost: Cost) -> str:
    each, ratio = 1000 * cost.user / one.procedures, cost.user / one.plain.user
    return f"| {one.procedures:,} | {name} | {cost.user:.2f} | {cost.wall:.2f} | {each:.2f} | {ratio:.2f} |"


def main() -> None:
    """Measure all sizes and print the table."""
    parser = argparse.ArgumentParser(description="Measure kbgen against plain MkDocs with Material.")
    parser.add_argument("--sizes", type=int, nargs="+", default=[1000, 3000])
    parser.add_argument("--json", type=Path, help="write the figures to this file as well")
    options = parser.parse_args()
    measured = []
    for count in options.sizes:
        with tempfile.TemporaryDirectory() as folder:
            measured.append(measure(count, Path(folder)))
    print(table(measured))
    if options.json:
        options.json.write_text(json.dumps([asdict(one) for one in measured], indent=2) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
