"""The text report: one block a finding, with carets under what it is about."""

from __future__ import annotations

from pathlib import Path

from kbgen.diagnostics import Diagnostic
from kbgen.place import Span
from kbgen.report.text import report, summary
from kbgen.source.rules import BROKEN_YAML
from tests.check.knowledge_base import SLIPS, TABLES, KnowledgeBase

GOLDEN = """\
conveyors/belt-slips.yaml:112:29: error KB201 (unknown-reference): There is no step named “tigthen”.
    112 |         not-available: {go: tigthen}
        |                             ^^^^^^^
    Mend it: Did you mean “tighten”?
"""

WITH_LABEL = """\
tables/conveyors.yaml:86:9: error KB202 (name-given-twice): The tool “voltage-tester” is there already.
    86 |   - id: voltage-tester
       |         ^^^^^^^^^^^^^^
  tables/conveyors.yaml:81:9: it was named first here
    81 |   - id: voltage-tester
       |         ^^^^^^^^^^^^^^
    Mend it: Give one of them a name of its own. Keep the name that was published first.
"""


def _report(base: KnowledgeBase, code: str) -> str:
    return "".join(report(base.found(code), lambda path: base.text(path).splitlines()))


def test_carets_stand_under_the_name(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(SLIPS, "not-available: {go: tighten}", "not-available: {go: tigthen}")
    assert _report(base, "KB201") == GOLDEN


def test_a_label_shows_the_other_place(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(TABLES, "- id: flashlight", "- id: voltage-tester")
    assert _report(base, "KB202") == WITH_LABEL


def _carets(at: Span, line: str) -> str:
    (block,) = report([Diagnostic(BROKEN_YAML, at, "Broken.", "")], lambda path: [line])
    return block.splitlines()[2].split("| ", 1)[1]


def test_a_finding_over_several_lines_is_marked_to_the_end_of_the_first() -> None:
    assert _carets(Span("a", 0, 3, 2, 1), "a: [b, c,") == "   ^^^^^^"


def test_an_empty_place_gets_one_caret() -> None:
    assert _carets(Span("a", 0, 2, 0, 2), "a:") == "  ^"


def test_tabs_do_not_shift_the_carets() -> None:
    assert _carets(Span("a", 0, 2, 0, 3), "\t\tb") == "  ^"


def test_a_place_behind_the_end_of_the_file_has_no_excerpt() -> None:
    (block,) = report([Diagnostic(BROKEN_YAML, Span("a", 7, 0, 7, 1), "Broken.", "Mend.")], lambda path: ["a"])
    assert block.splitlines() == ["a:8:1: error KB102 (broken-yaml): Broken.", "    Mend it: Mend."]


def test_the_summary_counts_by_weight(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    assert summary(base.examine().found, 4) == "4 files checked: nothing to mend."
    base.change(SLIPS, "not-available: {go: tighten}", "not-available: {go: tigthen}")
    assert summary(base.found("KB201"), 1) == "1 file checked: 1 error."
    assert summary(base.found("KB201") * 2, 1200) == "1,200 files checked: 2 errors."
