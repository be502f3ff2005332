"""Spread work that needs no answer from other work over the cores of the machine."""

from __future__ import annotations

import gc
import multiprocessing
import os
import threading
from collections.abc import Callable, Iterator, Sequence
from typing import Any, TypeVar

T = TypeVar("T")
R = TypeVar("R")

_WORTH_SPREADING = 100
_AT_ONCE = 8

# What forked processes find in their copy of the memory, so that nothing has to be sent to them.
_task: tuple[Callable[[Any], Any], Sequence[Any]]


def spread(work: Callable[[T], R], items: Sequence[T]) -> Iterator[R]:
    """Yield the result for each item, in the order of the items.

    Processes are forked where the system can do so, where no other thread runs that a fork would tear apart, and
    where there is enough to do; elsewhere the work is done one after the other, with the same results.
    """
    global _task
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else 1
    if cores < 2 or len(items) < _WORTH_SPREADING or threading.active_count() > 1:
        yield from map(work, items)
        return
    _task = (work, items)
    gc.freeze()  # so that no process goes through everything it was forked with, looking for garbage
    try:
        with multiprocessing.get_context("fork").Pool(cores) as pool:
            yield from pool.imap(_one, range(len(items)), chunksize=_AT_ONCE)
    finally:
        gc.unfreeze()


def _one(number: int) -> Any:
    work, items = _task
    return work(items[number])
