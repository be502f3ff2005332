"""Findings as text: place, source line with a caret, what is wrong and how to mend it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence

from kbgen.diagnostics import Diagnostic, Label, Severity
from kbgen.place import Span

Lines = Callable[[str], Sequence[str]]


def report(found: Iterable[Diagnostic], lines: Lines) -> Iterator[str]:
    """Yield one block of text per finding; ``lines`` gives the lines of a file."""
    for one in found:
        yield "\n".join(_block(one, lines)) + "\n"


def summary(found: Sequence[Diagnostic], files: int) -> str:
    """One sentence on how many findings of each weight there are."""
    count = Counter(one.rule.severity for one in found)
    checked = f"{files:,} {'file' if files == 1 else 'files'} checked"
    if not found:
        return f"{checked}: nothing to mend."
    parts = [_counted(count[severity], severity.value) for severity in Severity if count[severity]]
    return f"{checked}: {', '.join(parts)}."


def _counted(number: int, word: str) -> str:
    plural = {"error": "errors", "warning": "warnings", "advice": "pieces of advice"}
    return f"{number} {word if number == 1 else plural[word]}"


def _block(one: Diagnostic, lines: Lines) -> Iterator[str]:
    yield f"{place(one.at)}: {one.rule.severity.value} {one.rule.code} ({one.rule.name}): {_harmless(one.message)}"
    yield from _excerpt(one.at, lines)
    for label in one.labels:
        yield from _label(label, lines)
    if one.help:
        yield f"    Mend it: {_harmless(one.help)}"


def place(at: Span) -> str:
    """file:line:column, counted from 1."""
    return f"{_harmless(at.path)}:{at.line + 1}:{at.column + 1}"


def _harmless(text: str) -> str:
    """Text on one line, without characters that a terminal or the log of a build server would obey."""
    if text.isprintable():
        return text
    return "".join(one if one.isprintable() else " " if one.isspace() else "\ufffd" for one in text)


def _label(label: Label, lines: Lines) -> Iterator[str]:
    yield f"  {place(label.at)}: {_harmless(label.text)}"
    yield from _excerpt(label.at, lines)


def _excerpt(at: Span, lines: Lines) -> Iterator[str]:
    text = lines(at.path)
    if at.line >= len(text):
        return
    line = _harmless(text[at.line].expandtabs(1).rstrip())
    end = at.end_column if at.end_line == at.line else len(line)
    width = max(1, min(end, max(len(line), at.column + 1)) - at.column)
    number = str(at.line + 1)
    yield f"    {number} | {line}"
    yield f"    {' ' * len(number)} | {' ' * at.column}{'^' * width}"
