"""The JSON report and the explanation of a rule."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from kbgen.check.catalogue import RULES
from kbgen.diagnostics import Rule
from kbgen.report.data import as_json
from kbgen.report.explain import explain
from tests.check.knowledge_base import TABLES, KnowledgeBase


def test_json_has_places_that_count_from_one(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(TABLES, "- id: flashlight", "- id: voltage-tester")
    (finding,) = json.loads(as_json(base.found("KB202")))["findings"]
    assert finding == {
        "code": "KB202",
        "name": "name-given-twice",
        "severity": "error",
        "file": TABLES,
        "line": 86,
        "column": 9,
        "end-line": 86,
        "end-column": 23,
        "message": "The tool “voltage-tester” is there already.",
        "help": "Give one of them a name of its own. Keep the name that was published first.",
        "related": [
            {
                "file": TABLES,
                "line": 81,
                "column": 9,
                "end-line": 81,
                "end-column": 23,
                "message": "it was named first here",
            }
        ],
    }


def test_no_findings_are_an_empty_list() -> None:
    assert json.loads(as_json([])) == {"findings": []}


@pytest.mark.parametrize("rule", RULES, ids=lambda one: one.code)
def test_an_explanation_has_both_examples_and_fits_the_screen(rule: Rule) -> None:
    text = explain(rule)
    assert text.startswith(f"{rule.code} {rule.name} ({rule.severity.value})")
    for line in (*rule.example.bad.splitlines(), *rule.example.good.splitlines()):
        assert f"  | {line}".rstrip() in text
    prose = [line for line in text.splitlines() if not line.startswith("  | ")]
    assert max(map(len, prose)) <= 100
