"""What a process takes, and tables of it."""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Cost:
    """What a process and those that it started took, in seconds."""

    user: float
    wall: float


def cost(arguments: Sequence[str], folder: Path, cache: Path, cores: int | None = None) -> Cost:
    """Run Python with arguments in a folder; kbgen's cache lies in a folder of its own, nobody's own is touched."""
    environment = {**os.environ, "XDG_CACHE_HOME": str(cache), "NO_MKDOCS_2_WARNING": "1"}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)  # compiled modules are what a user has
    command = [sys.executable, *arguments]
    allowed = os.sched_getaffinity(0)
    started, before = time.perf_counter(), resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime
    os.sched_setaffinity(0, sorted(allowed)[:cores])
    try:
        subprocess.run(command, cwd=folder, env=environment, check=True, stdout=subprocess.DEVNULL)
    finally:
        os.sched_setaffinity(0, allowed)
    user = resource.getrusage(resource.RUSAGE_CHILDREN).ru_utime - before
    return Cost(round(user, 2), round(time.perf_counter() - started, 2))


def row(procedures: int, name: str, one: Cost, plain: Cost) -> str:
    """A row of a Markdown table; the ratios are to what plain work took."""
    each = 1000 * one.user / procedures
    ratios = f"{one.user / plain.user:.2f} | {one.wall / plain.wall:.2f}"
    return f"| {procedures:,} | {name} | {one.user:.2f} | {one.wall:.2f} | {each:.2f} | {ratios} |"


HEAD = (
    "| procedures | what | user s | wall s | user ms each | user ratio | wall ratio |\n"
    "| ---: | --- | ---: | ---: | ---: | ---: | ---: |"
)
