"""Decoding: every problem is found at once, each with a way to mend it, and every kind of value is read."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from enum import Enum
from typing import Any

import pytest

from kbgen.diagnostics import Diagnostic
from kbgen.model.decode import decode
from kbgen.model.procedure import Procedure
from kbgen.model.record import Record, key
from kbgen.model.steps import Ask, Do
from kbgen.model.tables import Tables
from kbgen.model.values import Duration, PathText, Period, Prose, Quantity, StepId, StepRef, Text
from kbgen.source.read import read_text
from tests.check.knowledge_base import EXAMPLE, SLIPS, TABLES


class Colour(Enum):
    RED = "red"
    GREEN = "green"


@dataclass(frozen=True, kw_only=True)
class Inner(Record):
    """A group inside."""

    a: Text = key("A word.")


@dataclass(frozen=True, kw_only=True)
class Sample(Record):
    """One key of each kind."""

    name: Text | None = key("Words.", default=None)
    prose: Prose | None = key("Prose.", default=None)
    id: StepId | None = key("A name.", default=None)
    ref: StepRef | None = key("A reference.", default=None)
    file: PathText | None = key("A path.", default=None)
    whole: int | None = key("A whole number.", default=None, above_zero=True)
    share: float | None = key("A share.", default=None, at_most=1)
    sure: bool | None = key("Yes or no.", default=None)
    day: datetime.date | None = key("A date.", default=None)
    size: Quantity | None = key("A quantity.", default=None)
    time: Duration | None = key("A time.", default=None)
    period: Period | None = key("An interval.", default=None)
    colour: Colour | None = key("A colour.", default=None)
    words: tuple[Text, ...] = key("Words, or none.", word="none", default=())
    two: tuple[Text, ...] = key("At least two.", at_least=2, default=())
    inner: Inner | None = key("A group.", default=None)
    table: dict[Text, float] | None = key("A table.", default=None)
    step: Do | Ask | None = key("A step.", default=None)


def _decoded(text: str) -> tuple[Sample, list[Diagnostic]]:
    root = read_text("a.yaml", text).value
    assert root is not None
    decoded = decode(Sample, root)
    return decoded.record, list(decoded.found)


@pytest.mark.parametrize(
    ("name", "written", "value"),
    [
        ("name", "No", "No"),
        ("name", '"12"', "12"),
        ("prose", "Wipe *dry*", "Wipe *dry*"),
        ("id", "guard-off-2", "guard-off-2"),
        ("ref", "next", "next"),
        ("file", "pictures/a b.svg", "pictures/a b.svg"),
        ("whole", "12", 12),
        ("share", "0.25", 0.25),
        ("share", "1", 1.0),
        ("sure", "yes", True),
        ("sure", "No", False),
        ("day", "2026-09-14", datetime.date(2026, 9, 14)),
        ("size", "12.5 V", Quantity(12.5, "V", "12.5 V")),
        ("time", "1 h 30 min", Duration(5400, "1 h 30 min")),
        ("period", "2 years", Period(24, "2 years")),
        ("colour", "green", Colour.GREEN),
        ("words", "[a, b]", ("a", "b")),
        ("words", "none", ()),
        ("two", "[a, b]", ("a", "b")),
        ("table", "{a: 1, b: 0.5}", {"a": 1.0, "b": 0.5}),
    ],
)
def test_each_kind_of_value_is_read(name: str, written: str, value: Any) -> None:
    record, found = _decoded(f"{name}: {written}\n")
    assert found == []
    assert getattr(record, name) == value


@pytest.mark.parametrize(
    ("written", "code"),
    [
        ("name: [a]", "KB106"),
        ("name: ' '", "KB105"),
        ("name:", "KB105"),
        ('name: ""', "KB105"),
        ("id: Guard off", "KB107"),
        ("id: a--b", "KB107"),
        (f"id: {'a' * 61}", "KB107"),
        ("file: ../a.svg", "KB107"),
        ("file: /a.svg", "KB107"),
        ("file: 'a\\b.svg'", "KB107"),
        ("file: 'c:a.svg'", "KB107"),
        ('file: "a\\0b"', "KB107"),
        ("whole: 0", "KB107"),
        ("whole: 1.5", "KB107"),
        ("whole: 99999999999", "KB107"),
        ("share: 1.01", "KB107"),
        ("share: -0.1", "KB107"),
        (f"share: {'9' * 400}", "KB107"),
        ("sure: maybe", "KB107"),
        ("day: 14.9.2026", "KB107"),
        ("day: 20260914", "KB107"),
        ("day: 2026-W37-1", "KB107"),
        ("day: 2026-02-30", "KB107"),
        ("size: twelve", "KB107"),
        ("time: 5", "KB107"),
        ("period: 90 d", "KB107"),
        ("colour: blue", "KB107"),
        ("words: a", "KB106"),
        ("words: []", "KB105"),
        ("words: {a: b}", "KB106"),
        ("words:", "KB105"),
        ("two: [a]", "KB105"),
        ("two: [a, [b]]", "KB106"),
        ("inner: a", "KB106"),
        ("inner: {}", "KB105"),
        ("table: [a]", "KB106"),
        ("table: {a: b}", "KB107"),
        ("step: do", "KB106"),
        ("step: {id: a}", "KB105"),
        ("step: {id: a, do: b, ask: c}", "KB104"),
    ],
)
def test_what_does_not_fit_is_one_finding_in_its_line(written: str, code: str) -> None:
    _, found = _decoded(written + "\n")
    assert [one.rule.code for one in found] == [code]
    assert all(one.at.line == 0 and one.at.path == "a.yaml" and one.help for one in found)


@pytest.mark.parametrize(
    ("written", "help"),
    [
        ("nmae: a", "Did you mean “name”?"),
        ("colour: gren", "Did you mean “green”?"),
        ("id: Guard Off", "Write it as “guard-off”."),
        ("step: {id: a, aks: b}", "Did you mean “ask”?"),
    ],
)
def test_a_slip_is_met_with_the_right_word(written: str, help: str) -> None:
    _, (finding,) = _decoded(written + "\n")
    assert finding.help == help


def test_an_unknown_key_without_a_likeness_is_met_with_the_list_of_keys() -> None:
    _, (finding,) = _decoded("inner: {a: b, zzz: c}\n")
    assert finding.help == "Keys that belong here: a."


def test_all_errors_are_found_at_once() -> None:
    _, found = _decoded("nmae: a\nwhole: x\nwords: a\ninner: {b: c}\nsure: yes\ntime:\n")
    assert [(one.rule.code, one.at.line) for one in found] == [
        ("KB104", 0), ("KB107", 1), ("KB106", 2), ("KB104", 3), ("KB105", 3), ("KB105", 5),
    ]  # fmt: skip


def test_a_missing_key_says_what_it_is_for() -> None:
    root = read_text("a.yaml", (EXAMPLE / SLIPS).read_text().replace("  permissions: none\n", "")).value
    assert root is not None
    decoded = decode(Procedure, root)
    (finding,) = decoded.found
    assert finding.message == "The key “permissions” is missing."
    assert finding.help.endswith("Write “permissions: none” if that is what you mean.")
    assert decoded.unsound == {"before"}


@pytest.mark.parametrize("text", ["", "a", "[]", "{}", "- a"])
def test_a_file_without_anything_in_it_still_makes_a_record(text: str) -> None:
    root = read_text("a.yaml", text).value
    assert root is not None
    decoded = decode(Procedure, root)
    assert decoded.found and decoded.record.steps == ()


@pytest.mark.parametrize(("version", "codes"), [("1", []), ("2", ["KB108"]), ("²", ["KB107"]), ("9" * 5000, ["KB107"])])
def test_another_version_of_the_format_is_told(version: str, codes: list[str]) -> None:
    root = read_text("a.yaml", f"kbgen: {version}\n").value
    assert root is not None
    assert [one.rule.code for one in decode(Tables, root).found] == codes


def test_values_know_their_place() -> None:
    text = (EXAMPLE / SLIPS).read_text()
    root = read_text("a.yaml", text).value
    assert root is not None
    decoded = decode(Procedure, root)
    lines = text.splitlines()
    assert len(decoded.names) > 20 and len(decoded.refs) > 50
    for mention in (*decoded.names, *decoded.refs):
        at = mention.text.at
        assert lines[at.line][at.column : at.end_column] == mention.text


def test_the_tables_of_the_example_decode_without_a_finding() -> None:
    root = read_text("a.yaml", (EXAMPLE / TABLES).read_text()).value
    assert root is not None
    decoded = decode(Tables, root)
    assert decoded.found == () and decoded.unsound == frozenset()
