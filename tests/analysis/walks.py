"""Small walks made by hand or at random, and every path through one, by going through them all."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from hypothesis import strategies as st

from kbgen.model.record import NOWHERE
from kbgen.model.steps import Do, Finish, Group, Step, Wait
from kbgen.model.values import Duration, Id, Prose, Ref
from kbgen.model.words import Result
from kbgen.route.route import Place, Way
from kbgen.route.unfold import Walk

SET_UPS = {"box": 70, "lamp": 31}
GROUP = Group(group=Prose.of("All", NOWHERE), steps=())


class Edge(NamedTuple):
    """An answer: where it leads, how often it may, and where it leads when that is used up."""

    target: str
    limit: int | None = None
    after: str = ""


@dataclass(frozen=True)
class Node:
    work: int = 0
    wait: int = 0
    set_up: tuple[str, ...] = ()
    edges: tuple[Edge, ...] = ()


def walk_of(nodes: Mapping[str, Node]) -> Walk:
    places = {key: _place(number, key, node) for number, (key, node) in enumerate(nodes.items(), start=1)}
    edges = {key: tuple(_ways(key, node)) for key, node in nodes.items() if node.edges}
    return Walk(next(iter(nodes)), places, edges)


def _place(number: int, key: str, node: Node) -> Place:
    return Place(key, str(number), _step(key, node), GROUP, None, {}, ())


def _step(key: str, node: Node) -> Step:
    name, words = Id.of(key, NOWHERE), Prose.of("x", NOWHERE)
    takes, set_up = Duration(node.work, ""), tuple(Ref.of(one, NOWHERE) for one in node.set_up)
    if not node.edges:
        return Finish(id=name, outcome=words, result=Result.FIXED, takes=takes, set_up=set_up)
    if node.wait:
        return Wait(id=name, wait=Duration(node.wait, ""), for_=words, takes=takes, set_up=set_up)
    return Do(id=name, do=words, takes=takes, set_up=set_up)


def _ways(key: str, node: Node) -> Iterator[tuple[str, Way]]:
    for number, edge in enumerate(node.edges):
        yield edge.target, Way(key, edge.target, f"label {number}", str(number), NOWHERE, edge.limit)
        if edge.after:
            yield edge.after, Way(key, edge.after, "", str(number), NOWHERE, None, after=True)


class Stand(NamedTuple):
    """A place on a path: the times spent there, and the number of the answer that is given."""

    key: str
    work: int
    wait: int
    answer: int | None


def paths(nodes: Mapping[str, Node]) -> list[list[Stand]]:
    """Every path from the first node to an outcome."""
    return list(_paths(nodes, next(iter(nodes)), {}, frozenset()))


def _paths(
    nodes: Mapping[str, Node], key: str, taken: Mapping[tuple[str, int], int], ready: frozenset[str]
) -> Iterator[list[Stand]]:
    node = nodes[key]
    work = node.work + sum(SET_UPS[one] for one in set(node.set_up) - ready)
    ready |= frozenset(node.set_up)
    if not node.edges:
        yield [Stand(key, work, node.wait, None)]
    for number, edge in enumerate(node.edges):
        used = taken.get((key, number), 0)
        spent = edge.limit is not None and used == edge.limit
        target = edge.after if spent else edge.target
        counted = taken if spent or edge.limit is None else {**taken, (key, number): used + 1}
        for rest in _paths(nodes, target, counted, ready):
            yield [Stand(key, work, node.wait, number), *rest]


SECONDS = st.integers(0, 300)


@st.composite
def nodes(draw: st.DrawFn) -> dict[str, Node]:
    """A walk of a few places, all of whose ways back have a limit."""
    count = draw(st.integers(1, 5))
    names = [f"n{number}" for number in range(count)]
    back = draw(st.integers(0, 2))
    made: dict[str, Node] = {}
    for number, name in enumerate(names):
        edges: list[Edge] = []
        for _ in range(draw(st.integers(1, 2))):
            onward = f"n{draw(st.integers(number + 1, count))}"
            if back and draw(st.booleans()):
                back -= 1
                target = f"n{draw(st.integers(0, count))}"
                edges.append(Edge(target, draw(st.integers(1, 2)), onward))
            else:
                edges.append(Edge(onward))
        made[name] = Node(draw(SECONDS), draw(st.sampled_from([0, 0, 45])), draw(_SET_UP), tuple(edges))
    return {**made, f"n{count}": Node(draw(SECONDS))}


_SET_UP: st.SearchStrategy[tuple[str, ...]] = st.lists(st.sampled_from(sorted(SET_UPS)), max_size=2).map(tuple)


def length(path: Sequence[Stand]) -> tuple[int, int]:
    """Whole and waiting time of a path."""
    return sum(one.work + one.wait for one in path), sum(one.wait for one in path)
