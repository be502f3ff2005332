"""Open items: the dataflow finds just what walking every path finds, and the example leaves what it should."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kbgen.analysis.open_items import HungLock, OpenItem, OpenItems, hung_locks, open_changes
from kbgen.examine import open_case
from kbgen.library.folder import Folder, read_tables
from kbgen.model.record import NOWHERE
from kbgen.model.steps import Change, Do, Group, Step, Undo
from kbgen.model.values import Prose, Text
from kbgen.route.route import Place, Way
from kbgen.route.unfold import Walk, unfold
from tests.check.knowledge_base import SLIPS, TABLES, KnowledgeBase
from tests.route.test_trace import opened

DEMO = Folder(Path(__file__).parents[2] / "procedures", "procedures")
SHARED, _ = read_tables(DEMO, DEMO.table_files())
FILES = DEMO.procedure_files()

ITEMS = ("guard", "valve")
NODES = 4
# A state of one item and a place recur after at most this many steps, so that longer paths bring nothing new.
LONGEST = 2 * NODES

steps = st.tuples(st.sampled_from(("do", "change", "undo")), st.sampled_from((*ITEMS, "undeclared")))
walks = st.tuples(
    st.lists(steps, min_size=NODES, max_size=NODES),
    st.lists(st.lists(st.integers(0, NODES - 1), max_size=2), min_size=NODES, max_size=NODES),
)


def _text(words: str) -> Text:
    return Text.of(words, NOWHERE)


def _step(key: str, kind: str, item: str) -> Step:
    words = Prose.of("Do it.", NOWHERE)
    if kind == "change":
        return Change(id=_text(key), change=words, opens=_text(item))
    if kind == "undo":
        return Undo(id=_text(key), undo=words, closes=_text(item))
    return Do(id=_text(key), do=words)


def _walk(drawn: tuple[list[tuple[str, str]], list[list[int]]]) -> Walk:
    group = Group(group=_text("Work"), steps=())
    places, edges = {}, {}
    for number, ((kind, item), targets) in enumerate(zip(*drawn, strict=True)):
        key = str(number)
        places[key] = Place(key, key, _step(key, kind, item), group, None, {}, ())
        edges[key] = tuple((str(one), Way(key, str(one), "", "", NOWHERE)) for one in targets)
    return Walk("0", places, edges)


def _paths(walk: Walk) -> Iterator[list[str]]:
    todo = [[walk.start]]
    while todo:
        path = todo.pop()
        yield path
        if len(path) < LONGEST:
            todo.extend([*path, target] for target, _ in walk.edges[path[-1]])


def _after(walk: Walk, path: list[str], item: str) -> bool:
    """Follow one path and keep a list of what is open, as a technician would."""
    is_open = False
    for key in path[:-1]:
        step = walk.places[key].step
        if isinstance(step, Change) and step.opens == item:
            is_open = True
        elif isinstance(step, Undo) and step.closes == item:
            is_open = False
    return is_open


@given(walks)
@settings(deadline=None)
def test_it_finds_the_states_that_walking_every_path_finds(drawn) -> None:
    walk = _walk(drawn)
    states: dict[tuple[str, str], set[bool]] = {}
    for path in _paths(walk):
        for item in ITEMS:
            states.setdefault((path[-1], item), set()).add(_after(walk, path, item))
    changes = open_changes(walk, ITEMS)
    for key in walk.places:
        for item in ITEMS:
            assert changes.states(key, item) == states.get((key, item), set())
        assert changes.open_at(key) == tuple(
            OpenItem(item, always=states[key, item] == {True})
            for item in ITEMS
            if True in states.get((key, item), set())
        )


@given(walks, st.sampled_from(ITEMS), st.booleans())
@settings(deadline=None)
def test_a_path_is_as_short_as_the_shortest_that_comes_to_the_state(drawn, item: str, is_open: bool) -> None:
    walk = _walk(drawn)
    changes = open_changes(walk, ITEMS)
    for key in walk.places:
        found = changes.path(key, item, is_open)
        lengths = [len(path) for path in _paths(walk) if path[-1] == key and _after(walk, path, item) == is_open]
        assert len(found) == min(lengths, default=0)
        if found:
            keys = [one for one, _ in found]
            assert _after(walk, keys, item) == is_open and keys[-1] == key
            assert all(way.target == target for (_, way), target in zip(found[:-1], keys[1:], strict=True))
            setting = [one for one in keys[:-1] if item in changes.set_at.get(one, {})]
            last = changes.last_set(found, item)
            assert (last.key if last else None) == (setting[-1] if setting else None)


def test_nothing_is_open_in_a_walk_without_a_start() -> None:
    changes = open_changes(Walk("0", {}, {}), ITEMS)
    assert changes.open_at("0") == () and changes.states("0", "guard") == frozenset()


def _example(base: KnowledgeBase) -> tuple[OpenItems[str], OpenItems[HungLock]]:
    case = opened(base)
    walk = unfold(case.route)
    return open_changes(walk, [str(one.id) for one in case.procedure.temporary_changes]), hung_locks(walk, case.shared)


def test_the_example_hands_over_with_the_guard_off_and_ends_with_it_on(tmp_path: Path) -> None:
    changes, _ = _example(KnowledgeBase.copy_to(tmp_path))
    guard_off = (OpenItem("guard-off", always=True),)
    assert {key: changes.open_at(key) for key in ("part", "hand-over", "fixed", "call")} == {
        "part": guard_off,
        "hand-over": guard_off,
        "fixed": (),
        "call": (),
    }


def test_the_lock_is_on_until_the_sequence_takes_it_off(tmp_path: Path) -> None:
    _, locks = _example(KnowledgeBase.copy_to(tmp_path))
    lock = HungLock("conveyor-mains", "q1")
    assert locks.items == (lock,)
    assert locks.open_at("isolate.padlock") == ()
    assert locks.open_at("hand-over") == locks.open_at("restore.unlock") == (OpenItem(lock, always=True),)
    assert locks.open_at("restore.close") == locks.open_at("fixed") == ()


def test_a_lock_that_is_on_only_on_some_paths_may_be_on(tmp_path: Path) -> None:
    _, locks = _example(KnowledgeBase.copy_to(tmp_path))
    assert locks.open_at("call") == (OpenItem(HungLock("conveyor-mains", "q1"), always=False),)


def _with_second_point(base: KnowledgeBase) -> KnowledgeBase:
    point = "  - {id: q9, name: Q9, device: Switch, where: On the mast, lock-with: Padlock}\n"
    base.change(TABLES, "isolation-points:\n", f"isolation-points:\n{point}")
    return base.change(TABLES, "    points: [q1]\n", "    points: [q1, q9]\n")


def test_a_step_without_a_point_locks_all_points_of_its_source(tmp_path: Path) -> None:
    _, locks = _example(_with_second_point(KnowledgeBase.copy_to(tmp_path)))
    assert [one.item.point for one in locks.open_at("hand-over")] == ["q1", "q9"]
    assert locks.open_at("fixed") == ()


def test_a_step_with_a_point_locks_only_that_one(tmp_path: Path) -> None:
    base = _with_second_point(KnowledgeBase.copy_to(tmp_path))
    hang = "            lock: Hang your own padlock and tag on {supply.points}.\n"
    _, locks = _example(base.change(TABLES, hang, f"{hang}            point: q9\n"))
    assert [one.item.point for one in locks.open_at("hand-over")] == ["q9"]


def test_taking_one_lock_off_leaves_the_other_on(tmp_path: Path) -> None:
    base = _with_second_point(KnowledgeBase.copy_to(tmp_path))
    take_off = "            unlock: Take off your own padlock and tag at {supply.points}.\n"
    _, locks = _example(base.change(TABLES, take_off, f"{take_off}            point: q9\n"))
    assert locks.open_at("fixed") == (OpenItem(HungLock("conveyor-mains", "q1"), always=True),)


def test_a_source_without_a_point_can_be_locked_too(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(TABLES, "    points: [q1]\n", "    points: none\n")
    _, locks = _example(base)
    assert locks.open_at("hand-over") == (OpenItem(HungLock("conveyor-mains", ""), always=True),)


@pytest.mark.parametrize("file", FILES, ids=[file.path for file in FILES])
def test_the_locks_of_the_demo_are_those_that_hold_its_energy_sources(file) -> None:
    case, _ = open_case(DEMO, file, SHARED)
    assert case is not None
    locks = hung_locks(case.walk, SHARED)
    held = {source: one for one in case.followed for source in one.circuit.index}
    for key in case.walk.places:
        for lock in locks.items:
            ways = {lock.point in hold.locked for hold in held[lock.source].holds(key, lock.source)}
            assert locks.states(key, lock) == ways


def test_a_guard_that_a_branch_does_not_put_back_may_be_off(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(SLIPS, "cannot-tell: {go: clean}", "cannot-tell: {go: restore}")
    changes, _ = _example(base)
    assert changes.open_at("fixed") == (OpenItem("guard-off", always=False),)
    on_the_way = [key for key, _ in changes.path("fixed", "guard-off", True) if "." not in key]
    assert on_the_way == ["watch", "guard-off", "wet", "fixed"]
