"""Workflow commands: what a runner reads from them is what was found."""

from __future__ import annotations

from pathlib import Path

from hypothesis import given, settings

from kbgen.check.catalogue import rule
from kbgen.diagnostics import Diagnostic
from kbgen.place import Span
from kbgen.report.annotations import as_commands
from tests.check.knowledge_base import SLIPS, KnowledgeBase
from tests.report.findings import FINDINGS


def _read(command: str) -> tuple[str, dict[str, str], str]:
    """Read a command as ActionCommand in actions/runner does: split it first, put the characters back afterwards."""
    assert command.startswith("::") and "\n" not in command and "\r" not in command
    head, _, message = command[2:].partition("::")
    kind, _, properties = head.partition(" ")
    pairs = (one.partition("=") for one in properties.split(","))
    return kind, {name: _back(value, data=False) for name, _, value in pairs}, _back(message, data=True)


def _back(text: str, data: bool) -> str:
    codes = {"%0D": "\r", "%0A": "\n"} | ({} if data else {"%3A": ":", "%2C": ","})
    for code, character in codes.items():
        text = text.replace(code, character)
    return text.replace("%25", "%")


def test_a_finding_becomes_one_command(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(SLIPS, "not-available: {go: tighten}", "not-available: {go: tigthen}")
    assert list(as_commands(base.found("KB201"), lambda path: f"docs/{path}")) == [
        "::error file=docs/conveyors/belt-slips.yaml,line=112,col=29,endLine=112,endColumn=36,"
        "title=KB201 unknown-reference::There is no step named “tigthen”.%0ADid you mean “tighten”?"
    ]


def test_weights_have_commands_of_their_own() -> None:
    weights = {"KB201": "error", "KB401": "warning", "KB206": "warning"}
    for code, kind in weights.items():
        known = rule(code)
        assert known is not None
        (command,) = as_commands([Diagnostic(known, Span("a", 0, 0, 0, 1), "No.", "")])
        assert command.startswith(f"::{kind} ")


@settings(deadline=None)
@given(FINDINGS)
def test_nothing_in_a_text_or_a_name_breaks_out_of_its_place(one: Diagnostic) -> None:
    (command,) = as_commands([one])
    kind, values, message = _read(command)
    assert kind == {"error": "error", "warning": "warning", "advice": "notice"}[one.rule.severity.value]
    assert values["file"] == one.at.path
    assert values["title"] == f"{one.rule.code} {one.rule.name}"
    assert message == (f"{one.message}\n{one.help}" if one.help else one.message)


@settings(deadline=None)
@given(FINDINGS)
def test_the_runner_accepts_lines_and_columns(one: Diagnostic) -> None:
    """The conditions of ValidateLinesAndColumns in actions/runner."""
    _, values, _ = _read(next(as_commands([one])))
    line, end_line = int(values["line"]), int(values["endLine"])
    assert line == one.at.line + 1
    assert end_line >= line
    if line != end_line:
        assert "col" not in values and "endColumn" not in values
    elif one.at.line == one.at.end_line:
        assert int(values["endColumn"]) >= int(values["col"]) == one.at.column + 1
