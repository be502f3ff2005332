"""The nearest known name, for findings about one that is not known."""

from __future__ import annotations

import difflib
from collections.abc import Iterable


def did_you_mean(name: str, known: Iterable[str], otherwise: str) -> str:
    """Propose the known name that is most like the given one, or say what else to do."""
    near = difflib.get_close_matches(name, sorted(known), n=1, cutoff=0.55)
    return f"Did you mean “{near[0]}”?" if near else otherwise
