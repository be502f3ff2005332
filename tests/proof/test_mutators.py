"""The mutators make one defect at a time, always the same ones, and leave the original alone."""

from __future__ import annotations

import json
from collections import Counter
from typing import Any

import pytest

from tests.proof.bases import Base, bases
from tests.proof.edits import links, onward, removed, steps_of
from tests.proof.mutants import KINDS, Mutant, all_mutants
from tests.proof.tables import Data


def _text(data: Any) -> str:
    return json.dumps(data, default=str, ensure_ascii=False)


def _mutants() -> list[Mutant]:
    return [mutant for one in bases() for mutant in all_mutants(one)]


def test_there_are_many_kinds_and_each_finds_a_place() -> None:
    counts = Counter(mutant.kind for mutant in _mutants())
    assert len(KINDS) >= 25
    assert not set(KINDS) - set(counts)


@pytest.mark.parametrize("one", bases(), ids=lambda one: one.root.name)
def test_the_original_stays_as_it_is(one: Base) -> None:
    before = _text([one.procedures, one.table_files])
    list(all_mutants(one))
    assert _text([one.procedures, one.table_files]) == before


def test_every_mutant_differs_from_the_original_in_one_file() -> None:
    for mutant in _mutants():
        if mutant.table is None:
            assert mutant.procedure != mutant.base.procedures[mutant.file], mutant
        else:
            path, data = mutant.table
            assert data != mutant.base.table_files[path], mutant
            assert mutant.procedure is mutant.base.procedures[mutant.file]


def test_the_same_mutants_come_every_time() -> None:
    assert [str(mutant) for mutant in _mutants()] == [str(mutant) for mutant in _mutants()]


GROUPS: list[Data] = [
    {
        "group": "g",
        "steps": [
            {"id": "a", "ask": "-", "answers": [{"id": "x", "go": "b"}, {"id": "y", "go": "next"}]},
            {"id": "b", "do": "-", "go": "d"},
            {"id": "c", "do": "-"},
            {"id": "d", "outcome": "-"},
        ],
    }
]


def test_what_led_to_a_step_that_is_gone_leads_on_to_where_it_led() -> None:
    left = removed(GROUPS, steps_of(GROUPS)[1])
    assert left is not None
    assert [step["id"] for step in steps_of(left)] == ["a", "c", "d"]
    assert [link.target for link in links(steps_of(left)[0])] == ["d", "d"]


def test_the_last_step_cannot_be_taken_out() -> None:
    last = steps_of(GROUPS)[-1]
    assert onward(GROUPS, last) is None and removed(GROUPS, last) is None
