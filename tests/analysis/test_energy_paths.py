"""The states that the dataflow finds are those that the paths leave, no more and no fewer."""

from __future__ import annotations

from collections.abc import Iterator

from hypothesis import given, settings
from hypothesis import strategies as st

from kbgen.analysis.circuit import Circuit, State
from kbgen.analysis.energy import Followed, follow
from kbgen.route.unfold import Walk
from tests.analysis.energy_walks import SOURCES, walks

LONGEST = 9


def _every_path(walk: Walk, circuit: Circuit, key: str, state: State, left: int) -> Iterator[tuple[str, State]]:
    yield key, state
    if left:
        for target, way in walk.edges.get(key, ()):
            yield from _every_path(walk, circuit, target, circuit.after(walk.places[key], way, state), left - 1)


def _found(one: Followed) -> set[tuple[str, State]]:
    return {(key, state) for key, states in one.states.items() for state in states}


@given(walks(forward_only=True))
def test_without_loops_it_equals_the_enumeration_of_all_paths(walk: Walk) -> None:
    for one in follow(walk, SOURCES, SOURCES):
        assert _found(one) == set(_every_path(walk, one.circuit, walk.start, one.circuit.start, len(walk.places)))


@settings(max_examples=60, deadline=None)
@given(walks(forward_only=False))
def test_with_loops_no_path_leaves_a_state_that_is_not_found(walk: Walk) -> None:
    for one in follow(walk, SOURCES, SOURCES):
        assert set(_every_path(walk, one.circuit, walk.start, one.circuit.start, LONGEST)) <= _found(one)


@settings(deadline=None)
@given(walks(forward_only=False))
def test_every_state_that_is_found_has_a_path_that_leaves_it(walk: Walk) -> None:
    for one in follow(walk, SOURCES, SOURCES):
        for key, sought in _found(one):
            path = one.path_to(key, lambda state, sought=sought: state == sought)  # type: ignore[misc]
            state = one.circuit.start
            assert path[0][0] == walk.start and path[-1] == (key, None)
            for (here, way), (after, _) in zip(path, path[1:], strict=False):
                assert way is not None and (after, way) in walk.edges[here]
                state = one.circuit.after(walk.places[here], way, state)
            assert state == sought


@settings(deadline=None)
@given(walks(forward_only=False), st.sampled_from(sorted(SOURCES)))
def test_sources_that_do_not_feed_one_another_are_followed_apart(walk: Walk, name: str) -> None:
    alone = follow(walk, [name], SOURCES)
    together = follow(walk, SOURCES, SOURCES)
    for key in walk.places:
        (apart,) = (one.holds(key, name) for one in alone if name in one.circuit.index)
        (jointly,) = (one.holds(key, name) for one in together if name in one.circuit.index)
        assert apart == jointly
