"""The proof by mutation: whatever defect makes a procedure dangerous, kbgen reports it by a fitting rule.

The account of all mutants is written to the folder that KBGEN_PROOF names, build/proof if it names none.
"""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest

from kbgen.memory import seldom_collected
from tests.proof.account import AUTHORS_KNOWLEDGE, FALSE_ALARMS, account, summary, told, unexplained
from tests.proof.bases import ROOT, Base, bases
from tests.proof.danger import Kind
from tests.proof.judgement import CAUGHT, FALSE_ALARM, MISSED, UNSEEN, Judged, judge
from tests.proof.mutants import KINDS, Mutant, all_mutants, in_every_run, sampled
from tests.proof.simulator import dangers
from tests.proof.verdict import errors_in_clean

MOST_OF_A_KIND = 26
AT_LEAST = 2000

# What may not go unreported when one of them is taken away, and is reported with the way that leads into it.
HELD_BY = (
    "drop isolation", "drop isolating run", "drop verification", "drop release", "drop lock", "drop discharge wait",
    "jump past an isolation", "back without isolating again", "drop undo", "branch past an undo",
)  # fmt: skip
EXPOSING = frozenset(Kind) - {
    Kind.UNREADABLE, Kind.STUCK, Kind.ENDLESS, Kind.NEVER_REACHED, Kind.NO_WAY_OUT, Kind.TOO_LATE, Kind.BARE_LIVE_WORK,
}  # fmt: skip
TELLS_THE_WAY = ("KB501", "KB503", "KB504", "KB506", "KB509", "KB601", "KB602", "KB603")


@pytest.fixture(scope="module")
def judged() -> list[Judged]:
    with seldom_collected():
        return [judge(one) for one in _chosen()]


def _chosen() -> list[Mutant]:
    return sampled((mutant for one in bases() for mutant in all_mutants(one)), MOST_OF_A_KIND, HELD_BY)


@pytest.fixture(scope="module", autouse=True)
def report(judged: list[Judged]) -> Iterator[None]:
    yield
    folder = Path(os.environ.get("KBGEN_PROOF", ROOT / "build" / "proof"))
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "mutants.txt").write_text("\n".join([summary(judged), *account(judged), ""]), encoding="utf-8")
    print(f"\n{summary(judged)}")


@pytest.mark.parametrize("one", bases(), ids=lambda one: one.root.name)
def test_what_is_put_to_the_proof_is_clean(one: Base) -> None:
    assert not [danger.told() for data in one.procedures.values() for danger in dangers(data, one.tables)]
    assert not [(error.rule.code, error.at.path, error.message) for error in errors_in_clean(one)]


def test_there_are_enough_mutants_of_each_kind(judged: list[Judged]) -> None:
    assert len(judged) >= AT_LEAST
    assert not set(KINDS) - {one.mutant.kind for one in judged}


def test_every_dangerous_mutant_is_caught_by_a_fitting_rule(judged: list[Judged]) -> None:
    assert not [told(one) for one in judged if one.verdict == MISSED]


def test_what_is_reported_without_danger_is_explained(judged: list[Judged]) -> None:
    assert not unexplained(judged, FALSE_ALARM, FALSE_ALARMS)


def test_what_nobody_sees_is_what_only_the_author_knows(judged: list[Judged]) -> None:
    assert not unexplained(judged, UNSEEN, AUTHORS_KNOWLEDGE)


@pytest.mark.parametrize("one", bases(), ids=lambda one: one.root.name)
def test_whatever_holds_energy_off_is_missed_with_the_way_that_leads_into_it(one: Base, judged: list[Judged]) -> None:
    """Each procedure, with the defects of the sequences that it runs in it, not only in the first one that does."""
    with seldom_collected():
        shown = [judge(mutant) for mutant in in_every_run(one, HELD_BY)]
    shown += [each for each in judged if each.mutant.kind in HELD_BY and each.mutant.base is one]
    dangerous = [each for each in shown if any(danger.kind in EXPOSING for danger in each.dangers)]
    assert {each.mutant.file for each in dangerous} >= {
        file for file, data in one.procedures.items() if _isolates(data)
    }
    assert not [told(each) for each in dangerous if not _tells_the_way(each)]


def _isolates(procedure: dict[str, object]) -> bool:
    return "with" in str(procedure["steps"])


def _tells_the_way(one: Judged) -> bool:
    stations = {danger.station.split(".")[-1] for danger in one.dangers}
    ways = [error.message for error in one.fitting if error.rule.code in TELLS_THE_WAY and "start ->" in error.message]
    return any(station in way for way in ways for station in stations)


def test_limits_units_and_branches_that_are_missing_are_reported(judged: list[Judged]) -> None:
    kinds = ("drop limit of a band", "drop unit of a reading", "drop band", "drop answer", "drop cannot-tell")
    counts = Counter((one.mutant.kind, one.verdict) for one in judged)
    assert all(counts[kind, CAUGHT] for kind in kinds)
    assert not [told(one) for one in judged if one.mutant.kind in kinds and one.verdict == MISSED]
