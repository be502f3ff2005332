"""The route of the example: its places, its ways, and the walk with shared sequences folded out."""

from __future__ import annotations

from pathlib import Path

import pytest

from kbgen.check.case import Case
from kbgen.examine import open_case
from kbgen.model.words import EnergyState, Person
from kbgen.route.unfold import unfold
from tests.check.knowledge_base import SLIPS, KnowledgeBase


def opened(base: KnowledgeBase, file: str = SLIPS) -> Case:
    examination = base.examine()
    case, _ = open_case(base.folder, next(one for one in examination.files if one.path == file), examination.shared)
    assert case is not None
    return case


@pytest.fixture
def base(tmp_path: Path) -> KnowledgeBase:
    return KnowledgeBase.copy_to(tmp_path)


def test_places_are_numbered_in_the_order_of_the_page(base: KnowledgeBase) -> None:
    route = opened(base).route
    assert route.start == "watch"
    assert [place.number for place in route.places.values()] == [str(number) for number in range(1, 16)]
    inside = [(place.number, place.key) for place in route.places["isolate"].inside]
    assert inside[0] == ("2.1", "isolate.tell") and inside[-1] == ("2.6", "isolate.test")


def test_ways_carry_their_answers(base: KnowledgeBase) -> None:
    route = opened(base).route
    ways = [(way.answer, way.label, way.target) for way in route.ways_from("watch")]
    assert ways == [
        ("turns", "Yes, the drum turns", "isolate"),
        ("stands", "No, both stand still", "not-this"),
        ("cannot-tell", "Cannot tell", "call"),
    ]


@pytest.mark.parametrize(
    ("first", "second", "words"),
    [
        ("Yes, the drum turns", "No, both stand still", "Cannot tell"),
        ("no", "YES", "Cannot tell"),
        ("Yes", "Nothing to be seen", "Something else, or cannot tell"),
        ("Yes, fast", "Yes, slowly", "Something else, or cannot tell"),
        ("At the tail drum", "At the head drum", "Something else, or cannot tell"),
    ],
)
def test_only_yes_and_no_leave_nothing_else(base: KnowledgeBase, first: str, second: str, words: str) -> None:
    base.change(SLIPS, '"Yes, the drum turns"', f'"{first}"').change(SLIPS, '"No, both stand still"', f'"{second}"')
    assert opened(base).route.ways_from("watch")[-1].label == words


def test_a_third_answer_beside_yes_and_no_shows_that_there_can_be_more(base: KnowledgeBase) -> None:
    stands = '          - {id: stands, answer: "No, both stand still", go: not-this}\n'
    base.change(SLIPS, stands, stands + "          - {id: hums, answer: It hums, go: not-this}\n")
    assert opened(base).route.ways_from("watch")[-1].label == "Something else, or cannot tell"


def test_words_of_the_author_come_first(base: KnowledgeBase) -> None:
    base.change(SLIPS, "cannot-tell: {go: call}", "cannot-tell: {answer: The drum is covered, go: call}")
    assert opened(base).route.ways_from("watch")[-1].label == "The drum is covered"


def test_a_limited_way_back_has_a_way_on(base: KnowledgeBase) -> None:
    back, on = opened(base).route.ways_from("tighten")
    assert (back.target, back.limit, back.after) == ("tension", 2, False)
    assert (on.target, on.limit, on.after) == ("hand-over", None, True)


def test_a_step_without_go_leads_to_the_next(base: KnowledgeBase) -> None:
    assert [way.target for way in opened(base).route.ways_from("guard-off")] == ["wet"]


def test_a_place_takes_over_what_its_group_says(base: KnowledgeBase) -> None:
    place = opened(base).route.places["clean"]
    assert (place.person, place.energy, place.hazards) == (
        Person.HANDS_IN,
        {"conveyor-mains": EnergyState.VERIFIED},
        ("nip-point",),
    )


def test_a_sequence_speaks_of_the_source_that_stands_for_its_own(base: KnowledgeBase) -> None:
    test = opened(base).route.places["isolate"].inside[-1]
    assert (test.source, test.energy) == ("conveyor-mains", {"conveyor-mains": EnergyState.RELEASED})


def test_unknown_targets_are_left_out(base: KnowledgeBase) -> None:
    base.change(SLIPS, "go: not-this}", "go: not-that}")
    assert [way.target for way in opened(base).route.ways_from("watch")] == ["isolate", "call"]


def test_steps_without_a_name_are_left_out(base: KnowledgeBase) -> None:
    base.change(SLIPS, "      - id: clean\n        do:", "      - do:")
    route = opened(base).route
    assert "" not in route.places and "clean" not in route.places
    assert all(way.source in route.places and way.target in route.places for way in route.ways)


def test_the_walk_goes_through_the_sequence_and_comes_back(base: KnowledgeBase) -> None:
    walk = unfold(opened(base).route)
    assert "isolate" not in walk.places and "restore" not in walk.places
    assert [target for target, _ in walk.edges["watch"]] == ["isolate.tell", "not-this", "call"]
    assert [target for target, _ in walk.edges["isolate.test"]] == ["guard-off", "call"]
    assert [target for target, _ in walk.edges["restore.close"]] == ["fixed"]
    assert {target for leaving in walk.edges.values() for target, _ in leaving} <= set(walk.places)
