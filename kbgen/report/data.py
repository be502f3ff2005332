"""Findings as JSON for programs."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from kbgen.diagnostics import Diagnostic
from kbgen.place import Span


def as_json(found: Iterable[Diagnostic]) -> str:
    """Write findings as a JSON document; lines and columns count from 1."""
    return json.dumps({"findings": [_finding(one) for one in found]}, ensure_ascii=False, indent=2)


def _finding(one: Diagnostic) -> dict[str, Any]:
    return {
        "code": one.rule.code,
        "name": one.rule.name,
        "severity": one.rule.severity.value,
        **_place(one.at),
        "message": one.message,
        "help": one.help,
        "related": [{**_place(label.at), "message": label.text} for label in one.labels],
    }


def _place(at: Span) -> dict[str, Any]:
    return {
        "file": at.path,
        "line": at.line + 1,
        "column": at.column + 1,
        "end-line": at.end_line + 1,
        "end-column": at.end_column + 1,
    }
