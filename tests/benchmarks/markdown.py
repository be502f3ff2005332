"""The text of a procedure as a Markdown page, for plain MkDocs with Material."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import yaml

CONFIG = """\
site_name: Benchmark
use_directory_urls: false
theme: {name: material, font: false}
plugins: [search]
not_in_nav: /procedure/
nav: [index.md]
"""
_HEADINGS = ("do", "ask", "read", "change", "undo", "run", "outcome")
_SECTIONS = ("symptoms", "alarms", "causes", "before", "temporary-changes", "closing")


def page(text: str) -> str:
    """Turn the YAML text of a procedure into a page: a heading for each step, lists for the rest."""
    procedure = yaml.load(text, Loader=yaml.CSafeLoader)
    lines = [f"# {procedure['title']}", "", str(procedure["summary"]), ""]
    for section in _SECTIONS:
        lines += [f"## {_title(section)}", "", *_list(procedure[section]), ""]
    for group in procedure["steps"]:
        lines += [f"## {group['group']}", ""]
        for step in group["steps"]:
            lines += _step(step)
    return "\n".join(lines)


def _step(step: Mapping[str, Any]) -> list[str]:
    kind = next(key for key in _HEADINGS if key in step)
    rest = {key: value for key, value in step.items() if key not in (kind, "id")}
    return [f"### {step[kind]} {{#{step['id']}}}", "", *_list(rest), ""]


def _list(value: Any) -> Iterator[str]:
    """One item for each entry; what lies deeper stands within the item, as an author would write it."""
    if isinstance(value, dict):
        yield from (f"- **{_title(key)}**: {_inline(item)}" for key, item in value.items())
    elif isinstance(value, list):
        yield from (f"- {_inline(item)}" for item in value)
    else:
        yield str(value)


def _inline(value: Any) -> str:
    if isinstance(value, dict):
        return ", ".join(f"{_title(key)} {_inline(item)}" for key, item in value.items())
    if isinstance(value, list):
        return "; ".join(map(_inline, value))
    return str(value)


def _title(key: str) -> str:
    return key.replace("-", " ").capitalize()
