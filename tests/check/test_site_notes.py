"""KB212: what a site note can be about."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.check.knowledge_base import TABLES, KnowledgeBase


@pytest.mark.parametrize(
    ("about", "is_there"),
    [
        ("point:q1", True),
        ("procedure:belt-slips", True),
        ("procedure:belt-slips#tighten", True),
        ("procedure:belt-slips#isolate.tell", True),
        ("procedure:belt-slips#", False),
        ("procedure:belt-slips#tigthen", False),
        ("procedure:belt-slip", False),
        ("procedure:", False),
        ("tool:q1", False),
        ("machine:q1", False),
        ("q1", False),
    ],
)
def test_what_a_note_is_about_must_exist(about: str, is_there: bool, tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(TABLES, 'about: "point:q1"', f'about: "{about}"')
    assert (base.codes() == set()) is is_there
    assert base.codes() <= {"KB212"}
