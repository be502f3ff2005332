"""Whoever takes a job over reads what is still open; whoever makes a change reads what it takes away."""

from __future__ import annotations

import html
import re
from pathlib import Path

import pytest

from kbgen.examine import open_case
from kbgen.model.steps import Finish
from kbgen.model.words import Result
from kbgen.pages.addresses import step_anchor
from kbgen.pages.procedure_page import procedure_page
from tests.check.knowledge_base import SLIPS, KnowledgeBase
from tests.pages.test_steps import DEMO, FILES, SHARED
from tests.route.test_trace import opened

TRIPS = "conveyors/drive-trips.yaml"
GUARD_OFF = (
    "Guard of the drive drum taken off. Meanwhile: Nothing keeps a hand away from the nip point. "
    "Back to: Guard on, four screws tight. May be authorised by: Shift lead."
)
SPARE_IN = (
    "Spare drive in the place of the belt's own. Meanwhile: The spare knows neither the motor's limits nor the speed "
    "of the belt until they are loaded. Back to: The belt's own drive, marked with its conveyor. "
    "May be authorised by: Maintenance lead."
)
LOCK = "lock and tag at Q1 (Mains supply of the belt drive)."


def _section(base: KnowledgeBase, file: str, key: str) -> str:
    case = opened(base, file)
    page, _ = procedure_page(case.procedure, case.route, case.shared, {}, case.read_picture)
    return _cut(page.html, key)


def _cut(page: str, key: str) -> str:
    start = page.index(f'id="{step_anchor(key)}"')
    return page[start : page.index("</section>", start)]


def _lines(section: str) -> dict[str, list[str]]:
    """The lines of the work plan of a step: the words of each item, by the word that the line starts with."""
    lines = re.findall(r"<dt>(.*?)</dt><dd>(.*?)</dd>", section, re.DOTALL)
    return {word: [_words(item) for item in re.split("</li>", body) if _words(item)] for word, body in lines}


def _words(markup: str) -> str:
    return html.unescape(re.sub(r"<[^>]+>", "", markup)).strip()


@pytest.mark.parametrize(
    ("file", "key", "still_open"),
    [
        (SLIPS, "part", [GUARD_OFF, f"Your {LOCK}"]),
        (SLIPS, "hand-over", [GUARD_OFF, f"Your {LOCK}"]),
        (SLIPS, "call", [f"May be on, depending on your way here: your {LOCK}"]),
        (TRIPS, "part", [SPARE_IN]),
        (TRIPS, "call-service", [f"May be open, depending on your way here: {SPARE_IN}"]),
    ],
)
def test_an_outcome_that_hands_over_lists_what_is_open(
    file: str, key: str, still_open: list[str], tmp_path: Path
) -> None:
    lines = _lines(_section(KnowledgeBase.copy_to(tmp_path), file, key))
    assert lines["Still open"] == still_open
    assert ("Locks" in lines) == any(LOCK in one for one in still_open)


@pytest.mark.parametrize(("file", "key"), [(SLIPS, "fixed"), (SLIPS, "not-this"), (TRIPS, "fixed-clamp")])
def test_an_outcome_that_ends_the_job_has_nothing_to_list(file: str, key: str, tmp_path: Path) -> None:
    assert not {"Still open", "Locks"} & _lines(_section(KnowledgeBase.copy_to(tmp_path), file, key)).keys()


def test_what_was_put_back_is_not_listed(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(SLIPS, "outcomes: {running: fixed}", "outcomes: {running: call}")
    still_open = _lines(_section(base, SLIPS, "call"))["Still open"]
    assert still_open == [f"May be on, depending on your way here: your {LOCK}"]


def test_a_lock_without_an_isolation_point_is_named_by_its_source(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change("tables/conveyors.yaml", "    points: [q1]\n", "    points: none\n")
    lines = _lines(_section(base, SLIPS, "part"))
    assert lines["Still open"] == [GUARD_OFF, "Your lock and tag on Mains supply of the belt drive."]


def test_a_change_tells_what_it_takes_away_and_how_to_go_back(tmp_path: Path) -> None:
    lines = _lines(_section(KnowledgeBase.copy_to(tmp_path), TRIPS, "swap"))
    assert lines["Open item"] == ["Spare drive in the place of the belt's own"]
    assert lines["Protection lost"][0].startswith("The spare knows neither the motor's limits")
    assert lines["Authorised by"] == ["Maintenance lead"]
    assert lines["Back to"] == ["The belt's own drive, marked with its conveyor"]
    assert lines["Unit fits"] == ["as step 8 must have shown"]
    assert lines["Can be lost"] == ["Data, unless saved by step 7"]


@pytest.mark.parametrize(
    ("loses", "told"),
    [
        ("    loses: none\n", ["Nothing"]),
        ("    loses: [data, reference-position]\n", ["Data and reference position, unless saved by step 7"]),
        ("", None),
    ],
)
def test_what_can_be_lost_is_told_if_it_is_stated(loses: str, told: list[str] | None, tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(TRIPS, "    loses: [data]\n", loses)
    lines = _lines(_section(base, TRIPS, "swap"))
    assert lines.get("Can be lost") == told


def test_the_step_that_puts_back_names_the_change(tmp_path: Path) -> None:
    assert _lines(_section(KnowledgeBase.copy_to(tmp_path), SLIPS, "guard-on"))["Closes"] == [
        "Guard of the drive drum taken off"
    ]


def test_texts_of_a_change_are_escaped_and_its_prose_is_rendered(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    base.change(SLIPS, "what: Guard of the drive drum taken off", 'what: "Guard <img src=x> off"')
    base.change(SLIPS, "protection-lost: Nothing keeps", "protection-lost: >-\n      **Nothing** <b>keeps")
    base.change(SLIPS, "original: Guard on", "original: <i>Guard</i> on")
    section = _section(base, SLIPS, "part")
    assert "Guard &lt;img src=x&gt; off" in section and "<img" not in section
    assert "<strong>Nothing</strong> &lt;b&gt;keeps" in section
    assert "&lt;i&gt;Guard" in section


@pytest.mark.parametrize("file", FILES, ids=[file.path for file in FILES])
def test_each_outcome_of_the_demo_lists_just_what_can_be_open_there(file) -> None:
    case, _ = open_case(DEMO, file, SHARED)
    assert case is not None
    page, _ = procedure_page(case.procedure, case.route, SHARED, {}, case.read_picture)
    declared = {str(one.id): str(one.what) for one in case.procedure.temporary_changes}
    for key, place in case.walk.places.items():
        if isinstance(place.step, Finish):
            listed = " ".join(_lines(_cut(page.html, key)).get("Still open", ()))
            hands_over = place.step.result in (Result.ORDER_PART, Result.ESCALATE)
            for name, what in declared.items():
                assert (what in listed) == (hands_over and True in case.changes.states(key, name))
