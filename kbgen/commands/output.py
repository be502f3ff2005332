"""Standard output of commands whose output may be cut short, as by ``head``."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable


def say(blocks: Iterable[str]) -> None:
    """Print blocks of text. A reader that goes away early ends the printing and nothing else."""
    try:
        for block in blocks:
            print(block)
        sys.stdout.flush()
    except BrokenPipeError:
        fall_silent()


def fall_silent() -> None:
    """Turn standard output away from a pipe that nobody reads, so that Python does not complain of it at its end."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())
    os.close(nowhere)
