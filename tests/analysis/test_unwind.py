"""Unwound walks and their extremes against every path, gone through one by one."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kbgen.analysis import unwind as module
from kbgen.analysis.extremes import Extremes, extremes, longest_path
from kbgen.analysis.spent import Spent
from kbgen.analysis.unwind import Situation, TooManySituationsError, unwind
from tests.analysis.walks import SET_UPS, Edge, Node, Stand, length, nodes, paths, walk_of

FEW = settings(max_examples=150, deadline=None)


def _spent(path: list[Stand]) -> Spent:
    return Spent(*length(path))


@FEW
@given(nodes())
def test_the_extremes_of_each_place_are_those_of_all_paths(made: dict[str, Node]) -> None:
    unwound = unwind(walk_of(made), SET_UPS)
    assert unwound is not None
    until: dict[str, list[Spent]] = {}
    for path in paths(made):
        for end, stand in enumerate(path, start=1):
            until.setdefault(stand.key, []).append(_spent(path[:end]))
    assert extremes(unwound) == {key: Extremes(min(times), max(times)) for key, times in until.items()}


@FEW
@given(nodes(), st.data())
def test_the_longest_path_to_some_places(made: dict[str, Node], data: st.DataObject) -> None:
    goals = data.draw(st.sets(st.sampled_from(sorted(made)), min_size=1))
    unwound = unwind(walk_of(made), SET_UPS, goals)
    begun = [path[:end] for path in paths(made) for end, stand in enumerate(path, start=1) if stand.key in goals]
    if unwound is None:
        assert not begun
        return
    spent, path = longest_path(unwound, goals)
    assert spent == max(map(_spent, begun), default=Spent())
    taken = [(key, way.answer if way else None) for key, way in path]
    walked = [[(one.key, str(one.answer)) for one in some[:-1]] + [(some[-1].key, None)] for some in begun]
    assert taken in walked if begun else taken == []


@FEW
@given(nodes())
def test_every_way_leads_forward_and_every_answer_is_open_once(made: dict[str, Node]) -> None:
    unwound = unwind(walk_of(made), SET_UPS)
    assert unwound is not None
    met: set[Situation] = set()
    for here, leaving in unwound.ways.items():
        met.add(here)
        assert not met & {one.to for one in leaving}
        assert [one.way.answer for one in leaving] == [str(one) for one in range(len(made[here.place].edges))]


def test_what_cannot_matter_any_more_is_forgotten() -> None:
    loops = {
        "a": Node(edges=(Edge("a", 3, "b"),)),
        "b": Node(edges=(Edge("b", 3, "c"),), set_up=("box",)),
        "c": Node(),
    }
    unwound = unwind(walk_of(loops), SET_UPS)
    assert unwound is not None
    assert [here.place for here in unwound.ways] == ["a"] * 4 + ["b"] * 4 + ["c"]


def test_a_loop_without_a_limit_is_not_unwound() -> None:
    endless = {"a": Node(edges=(Edge("b"),)), "b": Node(edges=(Edge("a"), Edge("c"))), "c": Node()}
    assert unwind(walk_of(endless), {}) is None
    assert unwind(walk_of(endless), {}, ["c"]) is None


def test_a_loop_that_does_not_lead_to_the_goal_is_passed_over() -> None:
    aside = {
        "a": Node(5, edges=(Edge("b"), Edge("c"))),
        "b": Node(edges=(Edge("b"),)),
        "c": Node(7),
    }
    assert unwind(walk_of(aside), {}) is None
    unwound = unwind(walk_of(aside), {}, ["c"])
    assert unwound is not None and longest_path(unwound, ["c"])[0] == Spent(12)


@pytest.mark.parametrize("edges", [(Edge("a", 2),), (Edge("c"), Edge("a", 2))], ids=["only way", "one way of two"])
def test_a_limit_without_a_way_on_is_not_unwound(edges: tuple[Edge, ...]) -> None:
    assert unwind(walk_of({"a": Node(edges=edges), "c": Node()}), {}) is None


def test_the_number_of_situations_is_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    many = {"a": Node(edges=(Edge("a", 60, "b"),)), "b": Node(edges=(Edge("a", 60, "c"),)), "c": Node()}
    assert unwind(walk_of(many), {}) is not None
    monkeypatch.setattr(module, "MOST_SITUATIONS", 100)
    with pytest.raises(TooManySituationsError):
        unwind(walk_of(many), {})


def test_an_enormous_limit_is_refused_soon() -> None:
    with pytest.raises(TooManySituationsError):
        unwind(walk_of({"a": Node(edges=(Edge("a", 999_999_999, "b"),)), "b": Node()}), {})
