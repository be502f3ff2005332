"""The ways inside a shared sequence are judged like those of a procedure, once, at their place in the tables."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.check.knowledge_base import TABLES, KnowledgeBase

RELIEVE = "            release: Press start once, then stop. Wait until nothing moves.\n            source: supply\n"
TELL = "            do: Tell everyone at the machine that {supply} will be locked off.\n"
STILL_LIVE = "          - id: still-live\n            end: not-proved\n"
ASKED = (
    "          - id: asked\n"
    "            ask: Does anything still move?\n"
    '            answers: [{id: a, answer: "Yes", go: %s}, {id: b, answer: "No", go: %s}]\n'
    "            cannot-tell: {go: %s}\n"
    "            takes: 1 min\n"
)


@pytest.mark.parametrize(
    ("code", "good", "bad"),
    [
        ("KB301", TELL, TELL + "            go: open\n"),
        ("KB302", STILL_LIVE, STILL_LIVE.replace("end: not-proved", "do: Stay away.\n            go: still-live")),
        ("KB303", "not-proved: still-live", "not-proved: test"),
        ("KB303", RELIEVE, RELIEVE + "            takes: 1 min\n" + ASKED % ("asked", "next", "next")),
        ("KB304", RELIEVE, RELIEVE + "            takes: 1 min\n" + ASKED % ("next", "next", "next")),
    ],
)
def test_the_ways_of_a_sequence_are_judged(code: str, good: str, bad: str, tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    if "id: asked" in bad:
        bad = bad.removesuffix("            takes: 1 min\n")
    found = base.change(TABLES, good, bad).found(code)
    assert len(found) == 1 and found[0].at.path == TABLES
