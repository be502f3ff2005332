"""Addresses that have moved lead on, and a step keeps its anchor on the way."""

from __future__ import annotations

from pathlib import Path

import pytest

from kbgen.cache import no_cache
from kbgen.examine import examine
from kbgen.library.folder import Folder
from kbgen.site.content import content
from tests.check.knowledge_base import KnowledgeBase

REDIRECTS = """
redirects:
  - {from: old-belt, to: belt-slips}
  - {from: "old-belt#look", to: "belt-slips#watch"}
  - {from: "belt-slips#peek", to: "belt-slips#watch"}
  - {from: "belt-slips#glance", to: "belt-slips#watch"}
"""


@pytest.fixture
def pages(tmp_path: Path) -> dict[str, str]:
    base = KnowledgeBase.copy_to(tmp_path)
    (base.root / "tables" / "moved.yaml").write_text("kbgen: 1\n" + REDIRECTS)
    examined = examine(Folder(base.root, ""), None, no_cache())
    assert not examined.found
    return {page.path: page.html for page in content(examined, no_cache()).pages}


def test_a_page_that_has_moved_leads_on(pages: dict[str, str]) -> None:
    page = pages["procedure/old-belt.html"]
    assert 'href="../procedure/belt-slips.html"' in page
    assert '"step-look": "../procedure/belt-slips.html#step-watch"' in page


def test_a_step_answers_to_all_names_it_ever_had(pages: dict[str, str]) -> None:
    page = pages["procedure/belt-slips.html"]
    before_step = page[: page.index('id="step-watch"')]
    tail = before_step[before_step.rindex("<section") - 120 :]
    assert '<span id="step-peek"></span>' in tail
    assert '<span id="step-glance"></span>' in tail
