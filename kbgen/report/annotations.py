"""Findings as workflow commands, which GitHub Actions shows beside the lines of a change.

The commands are described under “Workflow commands for GitHub Actions”; how values are escaped and which of them the
runner accepts follows its published code: ``escapeData`` and ``escapeProperty`` in actions/toolkit,
``ValidateLinesAndColumns`` in actions/runner.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from kbgen.diagnostics import Diagnostic, Severity
from kbgen.place import Span

_COMMANDS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.ADVICE: "notice"}


def as_commands(found: Iterable[Diagnostic], address: Callable[[str], str] = str) -> Iterator[str]:
    """Yield one command per finding; ``address`` turns the name of a file into its path below the repository's root."""
    for one in found:
        values = {"file": address(one.at.path), **_stretch(one.at), "title": f"{one.rule.code} {one.rule.name}"}
        written = ",".join(f"{name}={_escaped_value(str(value))}" for name, value in values.items())
        message = f"{one.message}\n{one.help}" if one.help else one.message
        yield f"::{_COMMANDS[one.rule.severity]} {written}::{_escaped(message)}"


def _stretch(at: Span) -> dict[str, int]:
    """Lines and columns from 1; columns only within one line, since the runner drops them elsewhere."""
    if at.line == at.end_line:
        return {"line": at.line + 1, "col": at.column + 1, "endLine": at.line + 1, "endColumn": at.end_column + 1}
    return {"line": at.line + 1, "endLine": at.end_line + 1 if at.end_column else at.end_line}


def _escaped(text: str) -> str:
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _escaped_value(text: str) -> str:
    return _escaped(text).replace(":", "%3A").replace(",", "%2C")
