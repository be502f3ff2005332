"""A rule explained at the command line."""

from __future__ import annotations

import textwrap

from kbgen.diagnostics import Rule


def explain(rule: Rule) -> str:
    """Text of a rule: what it says, why it matters, how to mend it, a bad and a good example."""
    parts = [
        f"{rule.code} {rule.name} ({rule.severity.value})",
        textwrap.fill(rule.summary, 100),
        "Why it matters:\n" + textwrap.fill(rule.rationale, 100, initial_indent="  ", subsequent_indent="  "),
        "How to mend it:\n" + textwrap.fill(rule.remedy, 100, initial_indent="  ", subsequent_indent="  "),
        f"Raises it (in {rule.example.file}):\n" + _code(rule.example.bad),
        "Does not:\n" + _code(rule.example.good),
    ]
    return "\n\n".join(parts)


def _code(text: str) -> str:
    return textwrap.indent(text.rstrip("\n"), "  | ") if text.strip() else "  | (the lines below are left out)"
