"""The table of times on the page, and what it says of work that must be done before an alarm stage."""

from __future__ import annotations

from pathlib import Path

import pytest

from kbgen.analysis import unwind
from kbgen.pages.procedure_page import procedure_page
from kbgen.pages.time_table import basis_words, hours, share_words
from tests.check.knowledge_base import SLIPS, KnowledgeBase
from tests.route.test_trace import opened

TRIPS = "conveyors/drive-trips.yaml"


@pytest.fixture
def base(tmp_path: Path) -> KnowledgeBase:
    return KnowledgeBase.copy_to(tmp_path)


def page(base: KnowledgeBase, file: str = SLIPS) -> str:
    case = opened(base, file)
    html = procedure_page(case.procedure, case.route, case.shared, {}, case.read_picture)[0].html
    return " ".join(html.split())


def times_of(html: str) -> str:
    return html[html.index('<section class="kb-times"') : html.index('<section class="kb-flow"')]


def test_the_whole_job_stands_first(base: KnowledgeBase) -> None:
    shown = times_of(page(base))
    rows = "<tr><td><strong>2 min</strong></td><td><strong>31 min</strong></td><td><strong>57 min</strong></td></tr>"
    assert shown.index(rows) < shown.index('href="#step-part"')
    assert '<a href="#time">Time</a>' in page(base)


def test_each_outcome_has_its_times(base: KnowledgeBase) -> None:
    shown = times_of(page(base))
    assert shown.count('scope="rowgroup"') == 5
    assert (
        'href="#step-part">Order a part: The lagging is worn and must be replaced.</a> '
        '<span class="kb-time-share">about 72 of 100 jobs</span>'
    ) in shown
    assert '<span class="kb-time-share">not reckoned with</span>' in shown
    assert "<td><strong>–</strong></td>" in shown


def test_it_says_what_the_estimate_rests_on(base: KnowledgeBase) -> None:
    assert "an estimate. The weights of the causes are by judgement," in times_of(page(base))
    base.change(SLIPS, "weight: 3, basis: judgement", "weight: 3, basis: records")
    assert "are partly from records, partly by judgement," in times_of(page(base))


def test_waiting_is_shown_apart(base: KnowledgeBase) -> None:
    shown = times_of(page(base, TRIPS))
    assert '<strong>1 h 9 min</strong> <span class="kb-waiting">5 min wait</span>' in shown
    assert "<td>Electrically skilled person</td><td>1</td><td><strong>0.8</strong>" in shown


def test_steps_without_a_time_are_named(base: KnowledgeBase) -> None:
    base.change(SLIPS, "        takes: 5 min\n", "")
    assert "Step 5 says no time and counts as none." in times_of(page(base))
    base.change(SLIPS, "        takes: 10 min\n", "")
    assert "Steps 5, 7 say no time and count as none." in times_of(page(base))


def test_what_cannot_be_computed_is_said(base: KnowledgeBase, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(unwind, "MOST_SITUATIONS", 10)
    shown = times_of(page(base))
    assert "Not computed: the loops can be gone through in more than" in shown
    assert "<table" not in shown


def test_words_of_an_outcome_are_escaped(base: KnowledgeBase) -> None:
    base.change(SLIPS, "outcome: The belt runs with the drum again.", "outcome: The belt runs & <b>pulls</b> again.")
    assert "Fixed: The belt runs &amp; &lt;b&gt;pulls&lt;/b&gt; again.</a>" in times_of(page(base))


def test_a_step_says_before_which_stage_it_must_be_done(base: KnowledgeBase) -> None:
    words = "Must be done before T-21 turns to trip, 20 min after the first sign."
    assert f"<dd>{words}</dd>" in page(base, TRIPS)
    base.change(TRIPS, "stage: trip}", "stage: trip, repeats: yes}")
    assert f"<dd>{words} A restart lets the time run again:" in page(base, TRIPS)


def test_the_time_of_a_window_runs_from_the_first_stage(base: KnowledgeBase) -> None:
    base.change("tables/drives.yaml", "            after: 0 s\n", "            after: 5 min\n")
    assert "turns to trip, 15 min after the first sign." in page(base, TRIPS)


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (0.0, "not reckoned with"),
        (0.0001, "about 1 of 100 jobs or fewer"),
        (0.014, "about 1 of 100 jobs or fewer"),
        (0.015, "about 2 of 100 jobs"),
        (1.0, "about 100 of 100 jobs"),
    ],
)
def test_shares_in_words(share: float, words: str) -> None:
    assert share_words(share) == words


def test_hours_in_words() -> None:
    assert [hours(0), hours(1800), hours(5000)] == ["0.0", "0.5", "1.4"]


def test_the_basis_of_weights(base: KnowledgeBase) -> None:
    causes = opened(base).procedure.causes
    assert basis_words(causes) == "by judgement"
