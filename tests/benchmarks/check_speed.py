"""How fast kbgen check is: against a plain load of the same files by yaml.CSafeLoader in one process, in one run.

    python -m tests.benchmarks.check_speed [--sizes 1000 10000] [--json FILE]

User seconds are those of a process and all that it starts; wall time depends on the machine's other work as well.
"""

from __future__ import annotations

import argparse
import json
import tempfile
import time
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

from tests.benchmarks.cost import HEAD, Cost, cost, row
from tests.benchmarks.generate import write_knowledge_base

_CHECK = ("-m", "kbgen.cli", "check")
_LOAD = (str(Path(__file__).with_name("plain_load.py")), "procedures")
_SETTLED = 3.5  # seconds after which kbgen remembers a file that was just written


@dataclass(frozen=True)
class Measured:
    """The costs at one number of procedures."""

    procedures: int
    plain: Cost
    nothing_cached: Cost
    one_core: Cost
    all_cached: Cost
    one_file: Cost
    one_edited: Cost
    one_moved: Cost

    @property
    def rows(self) -> tuple[tuple[str, Cost], ...]:
        """Names for people, in the order of the table."""
        return (
            ("yaml.CSafeLoader, load and no more", self.plain),
            ("kbgen check, nothing cached", self.nothing_cached),
            ("kbgen check, nothing cached, on one core", self.one_core),
            ("kbgen check, all cached", self.all_cached),
            ("kbgen check FILE, unchanged", self.one_file),
            ("kbgen check FILE, a line added at its end", self.one_edited),
            ("kbgen check FILE, a line added at its top", self.one_moved),
        )


def measure(count: int, folder: Path) -> Measured:
    """Write a knowledge base below an empty folder and check it."""
    file = write_knowledge_base(count, folder / "procedures")[count // 2]
    cost(("-m", "kbgen.cli", "--version"), folder, folder / "cache")  # compiles the modules
    plain = cost(_LOAD, folder, folder / "cache")
    one_core = cost((*_CHECK, "procedures"), folder, folder / "cache-one", cores=1)
    nothing_cached = cost((*_CHECK, "procedures"), folder, folder / "cache")
    time.sleep(_SETTLED)
    cost((*_CHECK, "procedures"), folder, folder / "cache")
    text = file.read_text(encoding="utf-8")
    return Measured(
        count,
        plain,
        nothing_cached,
        one_core,
        all_cached=cost((*_CHECK, "procedures"), folder, folder / "cache"),
        one_file=_one_file(file, text, folder),
        one_edited=_one_file(file, f"{text}# edited\n", folder),
        one_moved=_one_file(file, f"# edited\n{text}", folder),
    )


def _one_file(file: Path, text: str, folder: Path) -> Cost:
    file.write_text(text, encoding="utf-8")
    return cost((*_CHECK, str(file.relative_to(folder))), folder, folder / "cache")


def table(measured: Sequence[Measured]) -> str:
    """Show the costs as a Markdown table."""
    return "\n".join([HEAD, *(row(one.procedures, name, it, one.plain) for one in measured for name, it in one.rows)])


def main() -> None:
    """Measure all sizes and print the table."""
    parser = argparse.ArgumentParser(description="Measure kbgen check against a plain load of the same files.")
    parser.add_argument("--sizes", type=int, nargs="+", default=[1000, 10000])
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
