"""How fast sites are built: kbgen against plain MkDocs with Material on the same text, in one run.

    python -m tests.benchmarks.build_speed [--sizes 1000 3000] [--json FILE]

User seconds are those of a process and all that it starts; wall time depends on the machine's other work as well.
Every kbgen build of a size starts with an empty cache; a rebuild follows one changed file.
"""

from __future__ import annotations

import argparse
import json
import tempfile
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

from tests.benchmarks.cost import HEAD, Cost, cost, row
from tests.benchmarks.generate import write_sites

_BUILD = ("-m", "mkdocs", "build", "--quiet")


@dataclass(frozen=True)
class Measured:
    """The costs at one number of procedures."""

    procedures: int
    plain: Cost
    build: Cost
    rebuild: Cost

    @property
    def rows(self) -> tuple[tuple[str, Cost], ...]:
        """Names for people, in the order of the table."""
        return (
            ("plain MkDocs + Material", self.plain),
            ("kbgen, nothing cached", self.build),
            ("kbgen, one file changed", self.rebuild),
        )


def measure(count: int, folder: Path) -> Measured:
    """Write and build both sites below an empty folder."""
    write_sites(count, folder)
    ours, one = folder / "kbgen", next((folder / "kbgen/procedures").glob("*/station-*1.yaml"))
    return Measured(
        procedures=count,
        plain=cost(_BUILD, folder / "plain", folder / "cache"),
        build=cost(_BUILD, ours, folder / "cache"),
        rebuild=_cost_of_rebuild(ours, one, folder / "cache"),
    )


def _cost_of_rebuild(site: Path, changed: Path, cache: Path) -> Cost:
    text = changed.read_text(encoding="utf-8")
    changed.write_text(text.replace("Hold the rule against", "Lay the rule against"), encoding="utf-8")
    return cost(_BUILD, site, cache)


def table(measured: Sequence[Measured]) -> str:
    """Show the costs as a Markdown table; ratios are to those of plain MkDocs."""
    lines = [HEAD]
    for one in measured:
        lines += [row(one.procedures, name, it, one.plain) for name, it in one.rows]
        part = one.rebuild.user / one.build.user
        lines.append(f"| {one.procedures:,} | rebuild as a part of the build | | | | {part:.2f} | |")
    return "\n".join(lines)


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
