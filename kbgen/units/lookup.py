"""Look a unit up by what an author wrote: first among the known ones, then in the units library."""

from __future__ import annotations

import json
from collections.abc import Mapping
from decimal import Decimal
from functools import cache, lru_cache
from pathlib import Path

from kbgen.units.unit import Unit
from kbgen.units.writing import plain

TABLE = Path(__file__).with_name("known.json")


@lru_cache(maxsize=4096)
def unit(text: str) -> Unit | None:
    """Return the unit that a text stands for, or None. Case matters: mΩ is not MΩ. An empty text is a plain number."""
    written = plain(text)
    known = _known().get(written)
    if known is not None:
        dimension, factor, offset = known
        return Unit(written, dimension, Decimal(factor), Decimal(offset))
    from kbgen.units.meaning import meaning

    return meaning(written)


def alike(text: str) -> tuple[str, ...]:
    """Return the known units that differ from a text in nothing but small and large letters."""
    folded = plain(text).casefold()
    return tuple(symbol for symbol in sorted(_known()) if symbol.casefold() == folded)


@cache
def _known() -> Mapping[str, tuple[str, str, str]]:
    table: dict[str, tuple[str, str, str]] = json.loads(TABLE.read_text(encoding="utf-8"))
    return table
