"""How often Python looks for garbage while many records are made."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager

_SELDOM = (50_000, 50, 100)


@contextmanager
def seldom_collected() -> Iterator[None]:
    """Collect seldom: records hold no cycles and live long, so going through all of them again and again is wasted.

    At the end all that was made counts as old at once; otherwise the next collection would go through it.
    """
    usual = gc.get_threshold()
    gc.set_threshold(*_SELDOM)
    try:
        yield
    finally:
        gc.freeze()
        gc.unfreeze()
        gc.set_threshold(*usual)
