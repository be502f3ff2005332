"""Places in files, which every value, reference and finding carries from the reader to the report."""

from __future__ import annotations

from typing import NamedTuple


class Span(NamedTuple):
    """A stretch of a file; lines and columns count from 0, the end is exclusive."""

    path: str
    line: int
    column: int
    end_line: int
    end_column: int
