"""Make the table of known units from the units library.

Run after a change of the known writings or a new release of the library:
    python -m kbgen.units.generate
"""

from __future__ import annotations

import json

from kbgen.units.lookup import TABLE
from kbgen.units.meaning import meaning
from kbgen.units.writing import WORDS


def table() -> dict[str, tuple[str, str, str]]:
    """For each known writing the dimension, the factor and the offset; raise ValueError for one without a meaning."""
    found = {}
    for symbol in sorted(WORDS):
        known = meaning(symbol)
        if known is None:
            raise ValueError(f"the units library does not know {WORDS[symbol]!r}")
        found[symbol] = (known.dimension, str(known.factor), str(known.offset))
    return found


def text() -> str:
    """The table as the file holds it, one unit a line."""
    lines = (f"{json.dumps(symbol, ensure_ascii=False)}: {json.dumps(known)}" for symbol, known in table().items())
    return "{\n" + ",\n".join(lines) + "\n}\n"


if __name__ == "__main__":
    TABLE.write_text(text(), encoding="utf-8")
