"""Chances carried along a walk, against every path with its probability: exact, in fractions."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kbgen.analysis.chances import Chances
from kbgen.analysis.expect import Expected, Mean, expect
from kbgen.analysis.unwind import unwind
from tests.analysis.walks import SET_UPS, Node, Stand, nodes, paths, walk_of

STATES = 3
TENTHS = st.integers(0, 10).map(lambda tenths: Fraction(tenths, 10))


def _shared_out(parts: list[int]) -> list[Fraction]:
    whole = sum(parts)
    return [Fraction(part, whole) if whole else Fraction(1, len(parts)) for part in parts]


@st.composite
def chances_of(draw: st.DrawFn, made: Mapping[str, Node]) -> Chances:
    weights = draw(st.lists(st.integers(1, 9), min_size=STATES - 1, max_size=STATES - 1))
    ways: dict[str, Any] = {}
    for key, node in made.items():
        if len(node.edges) > 1:
            parts = st.lists(st.integers(0, 3), min_size=len(node.edges), max_size=len(node.edges))
            by_state = [_shared_out(draw(parts)) for _ in range(STATES)]
            ways[key] = {str(number): tuple(row[number] for row in by_state) for number in range(len(node.edges))}
    removes: dict[str, Any] = {
        key: tuple(draw(TENTHS) for _ in range(STATES - 1)) for key in made if draw(st.booleans())
    }
    start: Any = (*_shared_out(weights), Fraction(0))
    return Chances(start, ways, removes)


def _weighed(path: list[Stand], chances: Any) -> Iterator[tuple[list[Fraction], list[Stand]]]:
    """The chance to have come to the end of each beginning of a path, by state of the fault, and after all of it."""
    row = list(chances.at_start)
    for end, stand in enumerate(path, start=1):
        yield row, path[:end]
        removed = chances.removes.get(stand.key, (0,) * (STATES - 1))
        kept = [share * (1 - gone) for share, gone in zip(row, removed, strict=False)]
        row = [*kept, row[-1] + sum(share * gone for share, gone in zip(row, removed, strict=False))]
        if stand.key in chances.ways:
            row = [a * b for a, b in zip(row, chances.ways[stand.key][str(stand.answer)], strict=True)]


def _brute(made: Mapping[str, Node], chances: Chances) -> Expected:
    until: dict[str, Mean] = {}
    at: dict[str, Mean] = {}
    seen: set[tuple[tuple[str, int | None], ...]] = set()
    for path in paths(made):
        for row, begun in _weighed(path, chances):
            name = tuple((one.key, one.answer) for one in begun[:-1])
            last, chance = begun[-1], sum(row)
            if last.answer is None:
                _add(until, last.key, chance, begun)
            if name not in seen:
                seen.add(name)
                _add(at, last.key, chance, begun[-1:])
    return Expected(until, at)


def _add(means: dict[str, Mean], key: str, chance: Any, stands: list[Stand]) -> None:
    mean = means.setdefault(key, Mean())
    mean.chance += chance
    mean.whole += chance * sum(one.work + one.wait for one in stands)
    mean.waiting += chance * sum(one.wait for one in stands)


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_it_is_the_sum_over_all_paths(data: st.DataObject) -> None:
    made = data.draw(nodes())
    chances = data.draw(chances_of(made))
    unwound = unwind(walk_of(made), SET_UPS)
    assert unwound is not None
    found = expect(unwound, chances)
    assert found == _brute(made, chances)
    assert sum(mean.chance for mean in found.until.values()) == 1


@settings(max_examples=50, deadline=None)
@given(st.data())
def test_ordinary_numbers_give_the_same(data: st.DataObject) -> None:
    made = data.draw(nodes())
    exact = data.draw(chances_of(made))
    unwound = unwind(walk_of(made), SET_UPS)
    assert unwound is not None
    ordinary = Chances(
        tuple(map(float, exact.at_start)),
        {key: {one: tuple(map(float, row)) for one, row in rows.items()} for key, rows in exact.ways.items()},
        {key: tuple(map(float, row)) for key, row in exact.removes.items()},
    )
    wanted, found = expect(unwound, exact), expect(unwound, ordinary)
    for key, mean in wanted.until.items():
        one = found.until[key]
        assert (one.chance, one.whole, one.waiting) == pytest.approx(
            (float(mean.chance), float(mean.whole), float(mean.waiting)), rel=1e-12, abs=1e-9
        )
