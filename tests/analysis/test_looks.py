"""Only what can be seen from outside, on the machine as it stands, may ever be proposed out of its turn."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kbgen.analysis.digest import FaultFigures
from kbgen.analysis.looks import looks_as_it_stands
from kbgen.model.record import NOWHERE
from kbgen.model.steps import Ask, Do, Group, LiveWork, OtherAnswer, Step
from kbgen.model.values import Id, Prose, Ref, Text
from kbgen.model.words import EnergyState, Person
from kbgen.route.route import Place, Route, Way
from tests.check.knowledge_base import SLIPS, KnowledgeBase

GROUP = Group(group=Text.of("All", NOWHERE), steps=())
WORDS = Prose.of("x", NOWHERE)
PERMIT = LiveWork(reason=WORDS, qualification=Ref.of("q", NOWHERE))
SET_UP = (Ref.of("cover-off", NOWHERE),)


def ask(**more: object) -> Ask:
    exit = OtherAnswer(go=Text.of("next", NOWHERE))
    return Ask(id=Id.of("a", NOWHERE), ask=WORDS, answers=(), cannot_tell=exit, **more)  # type: ignore[arg-type]


def place(step: Step, person: Person | None = Person.OUTSIDE, **energy: EnergyState) -> Place:
    return Place("", "", step, GROUP, person, energy, ())


LOOKS = (place(ask()), place(ask(), mains=EnergyState.LIVE, air=EnergyState.ANY))
OTHERS = (
    place(Do(id=Id.of("d", NOWHERE), do=WORDS)),
    place(ask(), Person.HANDS_IN),
    place(ask(), Person.ENCLOSURE_OPEN),
    place(ask(), None),
    place(ask(live_work=PERMIT)),
    place(ask(set_up=SET_UP)),
    *(
        place(ask(), mains=EnergyState.LIVE, air=state)
        for state in EnergyState
        if state not in (EnergyState.LIVE, EnergyState.ANY)
    ),
)


def route(places: Mapping[str, Place], edges: Mapping[str, list[str]]) -> Route:
    ways = tuple(Way(source, target, "", "", NOWHERE) for source, targets in edges.items() for target in targets)
    return Route(next(iter(places)), {key: replace(one, key=key) for key, one in places.items()}, ways)


@pytest.mark.parametrize("other", OTHERS)
def test_what_is_more_than_a_look_is_none_and_lets_none_follow(other: Place) -> None:
    places = {"first": LOOKS[0], "other": other, "after": LOOKS[1]}
    assert looks_as_it_stands(route(places, {"first": ["other"], "other": ["after"]})) == {"first"}


def test_a_look_that_looking_alone_leads_to_is_one_whatever_else_leads_there() -> None:
    places = {"first": LOOKS[0], "other": OTHERS[0], "after": LOOKS[1]}
    assert looks_as_it_stands(route(places, {"first": ["other", "after"], "other": ["after"]})) == {"first", "after"}


def test_nothing_is_one_where_the_work_begins_otherwise() -> None:
    assert not looks_as_it_stands(route({"other": OTHERS[1], "after": LOOKS[0]}, {"other": ["after"]}))


@st.composite
def routes(draw: st.DrawFn) -> Route:
    names = [f"s{number}" for number in range(draw(st.integers(1, 6)))]
    places = {name: draw(st.sampled_from(LOOKS + LOOKS + OTHERS)) for name in names}
    return route(places, {name: draw(st.lists(st.sampled_from(names), max_size=3)) for name in names})


@settings(max_examples=300, deadline=None)
@given(made=routes())
def test_every_one_is_reached_over_looks_alone(made: Route) -> None:
    """Against going along every path without repeats."""
    looking = {key for key, one in made.places.items() if replace(one, key="") in LOOKS}
    expected = {path[-1] for path in _paths(made, [made.start]) if looking.issuperset(path)}
    assert looks_as_it_stands(made) == expected


def _paths(made: Route, path: list[str]) -> Iterator[list[str]]:
    yield path
    for target in made.graph[path[-1]]:
        if target not in path:
            yield from _paths(made, [*path, target])


def figures(base: KnowledgeBase) -> FaultFigures:
    return next(one.figures for one in base.examine().digests if one.id == "belt-slips")


@pytest.fixture
def base(tmp_path: Path) -> KnowledgeBase:
    return KnowledgeBase.copy_to(tmp_path)


def test_the_look_for_a_symptom_is_known_with_its_time(base: KnowledgeBase) -> None:
    found = figures(base)
    assert [(one.step, one.number, one.seconds, one.question) for one in found.looks] == [
        ("watch", "1", 120, "Does the drum turn under the belt?")
    ]
    assert found.symptom_ids[found.looks[0].symptom] == "drum-turns"
    assert found.not_as_it_stands == ()


WATCH = "      - id: watch\n"
STEPS = f"    steps:\n{WATCH}"
QUESTION = "ask: Does the drum turn under the belt?"
TELL = "      - {id: tell, do: Tell those at the belt., takes: 1 min}\n"


@pytest.mark.parametrize(
    ("good", "bad"),
    [
        (f"    energy: {{conveyor-mains: any}}\n{STEPS}", f"    energy: {{conveyor-mains: locked}}\n{STEPS}"),
        (QUESTION, f"{QUESTION}\n        person: hands-in"),
        (WATCH, TELL + WATCH),
    ],
)
def test_a_look_that_needs_more_is_kept_from_being_proposed(base: KnowledgeBase, good: str, bad: str) -> None:
    found = figures(base.change(SLIPS, good, bad))
    assert found.looks == ()
    assert [found.symptom_ids[number] for number in found.not_as_it_stands] == ["drum-turns"]


def test_figures_of_causes_are_taken_over(base: KnowledgeBase) -> None:
    base.change(SLIPS, "weight: 3, basis: judgement}", "weight: 3, basis: records, cases: 12, shows: {belt-lags: 0.2}}")
    found = figures(base)
    assert [(one.weight, one.cases, one.shows) for one in found.causes] == [
        (6, 0, ((1, 0.9),)),
        (3, 12, ((1, 0.2),)),
        (1, 0, None),
    ]
    assert (found.times, found.times_counted, found.always) == (None, False, (True,))
