"""What is needed for every repair, and what only on a branch."""

from __future__ import annotations

from pathlib import Path

import pytest

from kbgen.analysis.digests import digest_of
from kbgen.analysis.usage import Use, uses
from tests.check.knowledge_base import SLIPS, KnowledgeBase
from tests.route.test_trace import opened


@pytest.fixture
def base(tmp_path: Path) -> KnowledgeBase:
    return KnowledgeBase.copy_to(tmp_path)


def _tools(base: KnowledgeBase) -> dict[str, Use]:
    return {one.name: one for one in uses(opened(base).route, lambda place: place.step.tools)}


def test_what_every_repair_needs_is_needed_always(base: KnowledgeBase) -> None:
    tools = _tools(base)
    for name in ("voltage-tester", "spanner-24"):
        assert (tools[name].always, tools[name].branches) == (True, ())


def test_what_one_branch_needs_names_the_answer_that_leads_there(base: KnowledgeBase) -> None:
    rule = _tools(base)["steel-rule"]
    assert (rule.always, rule.branches) == (False, ("“No” at step 4",))


def test_the_innermost_answer_names_a_nested_branch(base: KnowledgeBase) -> None:
    (lagging,) = uses(opened(base).route, lambda place: place.step.parts)
    assert (lagging.always, lagging.branches) == (False, ("“Tight enough” at step 6",))


def test_a_tool_used_on_all_branches_is_needed_always(base: KnowledgeBase) -> None:
    base.change(SLIPS, "        consumables: [cleaning-cloth]\n", "        tools: [flashlight]\n")
    base.change(SLIPS, "tools: [steel-rule]", "tools: [steel-rule, flashlight]")
    assert _tools(base)["flashlight"].always


def test_steps_are_listed_in_the_order_of_the_page(base: KnowledgeBase) -> None:
    assert [place.key for place in _tools(base)["spanner-24"].steps] == ["guard-off", "tighten", "guard-on"]


def test_nothing_used_is_nothing_listed(base: KnowledgeBase) -> None:
    assert uses(opened(base).route, lambda place: ()) == ()


def test_the_digest_holds_what_other_pages_need(base: KnowledgeBase) -> None:
    case = opened(base)
    digest = digest_of(SLIPS, case.decoded, case.route, case.shared)
    assert (digest.id, digest.revision, digest.state) == ("belt-slips", 2, "approved")
    assert digest.review_due.isoformat() == "2027-09-14"
    assert [(one.display, one.code) for one in digest.codes] == [("line-panel", "N-12")]
    assert [str(link) for link in digest.links] == ["belt-stands"]
    assert digest.anchors[:3] == ("watch", "isolate", "isolate.tell")
