"""Whatever stands in a file, the examination ends with findings and never breaks off."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from kbgen.source.edit import Edit, apply
from kbgen.source.read import read_text
from tests.check.knowledge_base import SLIPS, STANDS, TABLES, KnowledgeBase
from tests.source.test_read import scalars

FILES = st.sampled_from([SLIPS, STANDS, TABLES, "tables/site.yaml"])
WORDS = st.sampled_from(
    ['""', "~", "[]", "{}", "[a]", "{a: b}", "next", "²", "-1", "1e999", "9999-12-31", "9999 months", '"\\0"', "*a",
     "&a a", "'{supply.}'", "'{q1.points.x}'", "procedure:", "[x](procedure:)", '"<b>"', '"\\u202e"', "9" * 400 + " s",
     "9" * 5000, "conveyor-mains", "supply", "watch", "isolate-and-prove"]
)  # fmt: skip
MANY = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])


@pytest.fixture
def base(tmp_path: Path) -> KnowledgeBase:
    return KnowledgeBase.copy_to(tmp_path)


def _survives(base: KnowledgeBase, file: str, text: str) -> None:
    original = base.text(file)
    base.write(file, text)
    try:
        for finding in base.examine().found:
            assert finding.message and finding.help and finding.at.path
    finally:
        base.write(file, original)


@MANY
@given(data=st.data())
def test_a_scalar_may_be_anything(base: KnowledgeBase, data: st.DataObject) -> None:
    file = data.draw(FILES)
    root = read_text(file, base.text(file)).value
    assert root is not None
    chosen = data.draw(
        st.lists(st.sampled_from(list(scalars(root))), min_size=1, max_size=3, unique_by=lambda one: one.at)
    )
    edits = [Edit(one.at, data.draw(WORDS | st.text(max_size=20).filter(str.isprintable))) for one in chosen]
    _survives(base, file, apply(base.text(file), edits))


@MANY
@given(data=st.data())
def test_any_line_may_be_missing(base: KnowledgeBase, data: st.DataObject) -> None:
    file = data.draw(FILES)
    lines = base.text(file).splitlines(keepends=True)
    start = data.draw(st.integers(0, len(lines) - 1))
    count = data.draw(st.sampled_from([1, 1, 2, 5, 20]))
    _survives(base, file, "".join(lines[:start] + lines[start + count :]))


def _broken_ways(text: str) -> Iterator[str]:
    yield text.replace("      - id: wet\n        ask:", "      - ask:")
    yield text.replace("      - id: fixed\n        outcome:", "      - outcome:")
    yield text.replace("      - id: watch\n        ask:", "      - ask:")
    yield text[: text.index("steps:\n")] + "steps: []\n"
    yield text.replace("last: 2026-09-14", "last: 9999-12-31")
    yield text.replace("file: pictures/drum.svg", 'file: "\\0"')
    yield text.replace("kbgen: 1", "kbgen: ²")


def test_known_troubles_are_findings(base: KnowledgeBase) -> None:
    for text in _broken_ways(base.text(SLIPS)):
        assert text != base.text(SLIPS)
        _survives(base, SLIPS, text)


def test_an_empty_knowledge_base_has_no_findings(tmp_path: Path) -> None:
    assert KnowledgeBase(tmp_path).examine().found == ()
