"""Rows keep their heights and order; every gap gets the room that its lines need."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from kbgen.draw.heights import ABOVE_LABEL, ABOVE_NODE, BELOW_NODE, TRACK, Row, respaced

ROWS = st.lists(st.tuples(st.floats(10, 90), st.booleans()), min_size=1, max_size=8)
TRACKS = st.lists(st.integers(1, 59), max_size=5, unique=True)


@given(ROWS, st.lists(TRACKS, min_size=8, max_size=8))
def test_rows_are_moved_apart_by_what_runs_between(rows: list[tuple[float, bool]], shares: list[list[int]]) -> None:
    placed, y = [], 0.0
    for height, arrows in rows:
        placed.append(Row(y, y + height, arrows))
        y += height + 60
    tracks = sorted(row.bottom + share for row, there in zip(placed, shares, strict=False) for share in there)
    heights = respaced(placed, tracks, 8.0)
    assert heights.rows[0].top == 8.0
    for before, after in zip(placed, heights.rows, strict=True):
        assert abs((after.bottom - after.top) - (before.bottom - before.top)) < 1e-6
    for place, (upper, lower) in enumerate(pairwise(heights.rows)):
        inside = [heights.at(placed[place].bottom + share) for share in sorted(shares[place])]
        assert lower.top - upper.bottom >= ABOVE_LABEL - 1e-6
        if inside:
            assert inside[0] - upper.bottom >= BELOW_NODE - 1e-6
            assert lower.top - inside[-1] >= (ABOVE_NODE if lower.arrows else ABOVE_LABEL) - 1e-6
        assert all(b - a >= TRACK - 1e-6 for a, b in pairwise(inside))
