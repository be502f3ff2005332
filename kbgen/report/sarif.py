"""Findings as a SARIF log, for the code reviews and editors that read it.

Written after the OASIS standard Static Analysis Results Interchange Format (SARIF) Version 2.1.0 with Errata 01
(28 August 2023); the section numbers below are of that text.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import Any
from urllib.parse import quote

from kbgen import __version__
from kbgen.diagnostics import Diagnostic, Label, Rule, Severity
from kbgen.place import Span

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
ROOT = "%SRCROOT%"

Address = Callable[[str], str]
Json = dict[str, Any]

_LEVELS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.ADVICE: "note"}
_MARKUP = re.compile(r"([\\`*_\[\]<>#|~!])")


def as_sarif(found: Iterable[Diagnostic], rules: Sequence[Rule], address: Address = str) -> str:
    """Write findings as a SARIF log; ``address`` turns the name of a file into its path below the root of the sources.

    Columns are counted in characters from 1, ends are exclusive. The text is plain ASCII, so that it comes through
    whatever the encoding of the terminal or the pipe.
    """
    places = {rule.code: number for number, rule in enumerate(rules)}
    run = {
        "tool": {"driver": {"name": "kbgen", "version": __version__, "rules": [_rule(rule) for rule in rules]}},
        "originalUriBaseIds": {ROOT: {"description": _text("The root folder of the sources that were checked.")}},
        "columnKind": "unicodeCodePoints",
        "results": list(_results(found, places, address)),
    }
    return json.dumps({"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}, indent=2)


def _rule(rule: Rule) -> Json:
    parts = {"Why it matters": rule.rationale, "How to mend it": rule.remedy}
    plain = [f"{heading}: {text}" for heading, text in parts.items()]
    formatted = [f"**{heading}**\n\n{_unformatted(text)}" for heading, text in parts.items()]
    command = f"kbgen explain {rule.code}"
    return {
        "id": rule.code,
        "name": rule.name,
        "shortDescription": _text(rule.summary),
        "fullDescription": _text(f"{rule.summary} {rule.rationale}"),
        "help": {
            **_text("\n\n".join((*plain, f"{command} shows an example."))),
            "markdown": _braced("\n\n".join((*formatted, f"`{command}` shows an example."))),
        },
        "defaultConfiguration": {"level": _LEVELS[rule.severity]},
    }


def _results(found: Iterable[Diagnostic], places: dict[str, int], address: Address) -> Iterator[Json]:
    seen: Counter[tuple[str, ...]] = Counter()
    for one in found:
        same = (one.rule.code, address(one.at.path), one.message)
        seen[same] += 1
        yield {
            "ruleId": one.rule.code,
            "ruleIndex": places[one.rule.code],
            "level": _LEVELS[one.rule.severity],
            "message": _text(f"{one.message}\n\n{one.help}" if one.help else one.message),
            "locations": [_location(one.at, address)],
            "relatedLocations": [_related(number, label, address) for number, label in enumerate(one.labels, start=1)],
            "partialFingerprints": {"kbgenFinding/v1": _fingerprint(*same, str(seen[same]))},
        }


def _fingerprint(*parts: str) -> str:
    """What makes a finding the same one when lines above it come or go."""
    return hashlib.sha256("\0".join(parts).encode(errors="surrogateescape")).hexdigest()[:32]


def _related(number: int, label: Label, address: Address) -> Json:
    return {"id": number, **_location(label.at, address), "message": _text(label.text)}


def _location(at: Span, address: Address) -> Json:
    return {"physicalLocation": {"artifactLocation": _artifact(address(at.path)), "region": _region(at)}}


def _artifact(path: str) -> Json:
    """A path below the root as a relative reference, any other as a file URI (section 3.4; RFC 3986)."""
    if Path(path).is_absolute():
        return {"uri": Path(path).as_uri()}
    return {"uri": quote(path, safe="/", errors="surrogateescape"), "uriBaseId": ROOT}


def _region(at: Span) -> Json:
    """A stretch of text (section 3.30); one that ends before the first character of a line ends with the line above."""
    start = {"startLine": at.line + 1, "startColumn": at.column + 1}
    if at.end_line > at.line and at.end_column == 0:
        return {**start, "endLine": at.end_line}
    return {**start, "endLine": at.end_line + 1, "endColumn": at.end_column + 1}


def _text(text: str) -> Json:
    """A plain text message; what looks like an embedded link (section 3.11.6) is kept from becoming one."""
    return {"text": _braced(text.replace("](", "] ("))}


def _braced(text: str) -> str:
    """Write braces twice, since single ones hold placeholders (section 3.11.5)."""
    return text.replace("{", "{{").replace("}", "}}")


def _unformatted(text: str) -> str:
    """Text in which Markdown finds nothing to format and no HTML (section 3.11.4)."""
    return _MARKUP.sub(r"\\\1", text)
