"""Every rule keeps what its page promises: the good example is quiet, the bad one raises just this rule."""

from __future__ import annotations

import pickle
from dataclasses import replace
from pathlib import Path

import pytest

import kbgen.check
from kbgen.check.catalogue import OVERVIEW_CHECKS, RULES, STEP_CHECKS, WHOLE_CHECKS, rule
from kbgen.diagnostics import Rule, Severity
from tests.check.knowledge_base import KnowledgeBase

# An edit of an approved procedure voids its approval, whatever else it does; the approval of the example is meant to.
VOIDED_BY_ANY_EDIT = "KB402"

# Rules whose finding lies elsewhere than the edit: at the other use of a code, in the ledger of addresses, and at the
# step that must be done before a stage.
PLACE = {"KB403": "conveyors/belt-stands.yaml", "KB404": "addresses.txt", "KB802": "conveyors/drive-trips.yaml"}

BY_CODE = pytest.mark.parametrize("one", RULES, ids=lambda one: f"{one.code}-{one.name}")


def _broken_by(one: Rule, folder: Path) -> KnowledgeBase:
    base = KnowledgeBase.copy_to(folder)
    if one.code == "KB404":
        base.publish()
        assert base.codes() == set()
    return base.change(one.example.file, one.example.good, one.example.bad)


def test_the_example_raises_nothing(tmp_path: Path) -> None:
    assert KnowledgeBase.copy_to(tmp_path).examine().found == ()


@BY_CODE
def test_the_bad_example_raises_the_rule_and_no_other_error(one: Rule, tmp_path: Path) -> None:
    found = _broken_by(one, tmp_path).examine().found
    errors = {finding.rule.code for finding in found if finding.rule.severity is Severity.ERROR}
    assert one.code in {finding.rule.code for finding in found}
    assert errors <= {one.code, VOIDED_BY_ANY_EDIT}


@BY_CODE
def test_a_finding_says_what_and_where_and_how_to_mend_it(one: Rule, tmp_path: Path) -> None:
    base = _broken_by(one, tmp_path)
    for finding in base.found(one.code):
        at, lines = finding.at, base.text(finding.at.path).splitlines()
        assert at.path == PLACE.get(one.code, one.example.file)
        assert finding.message.strip() and finding.help.strip()
        assert 0 <= at.line < len(lines) and 0 <= at.column <= len(lines[at.line])
        assert (at.line, at.column) <= (at.end_line, at.end_column)


@BY_CODE
def test_a_rule_explains_itself(one: Rule) -> None:
    for text in (one.summary, one.rationale, one.remedy):
        assert text.endswith((".", "”")) and len(text) > 20
    assert one.name == one.name.lower() and " " not in one.name
    assert rule(one.code) is one and rule(one.name) is one and rule(f" {one.code.lower()} ") is one


def test_codes_and_names_are_unique_and_sorted() -> None:
    codes = [one.code for one in RULES]
    assert codes == sorted(set(codes))
    assert len({one.name for one in RULES}) == len(RULES)


def test_an_unknown_code_is_no_rule() -> None:
    assert rule("KB000") is None


def test_each_check_module_bears_code_and_name_of_its_rule() -> None:
    files = sorted(path.stem for path in Path(kbgen.check.__path__[0]).glob("kb[0-9]*.py"))
    checked = {f"{one.code.lower()}_{one.name.replace('-', '_')}" for one in RULES}
    assert len(files) >= 20
    assert set(files) <= checked
    listed = {module.__name__.rsplit(".", 1)[1] for module in (*STEP_CHECKS, *WHOLE_CHECKS, *OVERVIEW_CHECKS)}
    assert listed <= set(files)


@BY_CODE
def test_a_rule_is_stored_by_its_code(one: Rule) -> None:
    stored = pickle.dumps(one)
    assert pickle.loads(stored) is one
    assert one.rationale.encode() not in stored


def test_a_rule_that_is_in_no_list_is_stored_in_full() -> None:
    other = replace(RULES[0], summary="Another.")
    assert pickle.loads(pickle.dumps(other)) == other
