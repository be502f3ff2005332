"""KB704 on more cases than the example on its page: each is a derived reading of the example's drive."""

from __future__ import annotations

from pathlib import Path

import pytest

from kbgen.diagnostics import Diagnostic
from tests.check.knowledge_base import KnowledgeBase

TRIPS = "conveyors/drive-trips.yaml"
TABLES = "tables/conveyors.yaml"
UNIT = '        unit: "%"\n        shows: {from: 0, to: 100}\n        bands:\n          - {id: even,'
FORMULA = """        formula: voltage-unbalance
        inputs:
          - {id: l1-l2, text: Voltage between L1 and L2, unit: V}
          - {id: l2-l3, text: Voltage between L2 and L3, unit: V}
          - {id: l3-l1, text: Voltage between L3 and L1, unit: V}
"""


def derived(folder: Path, reading_unit: str, lines: str) -> list[Diagnostic]:
    """What KB704 finds in the reading with another unit and other lines in place of its formula."""
    base = KnowledgeBase.copy_to(folder)
    base.change(TRIPS, UNIT, UNIT.replace('"%"', f'"{reading_unit}"'))
    return base.change(TRIPS, FORMULA, lines).found("KB704")


def formula(name: str, *inputs: str, table: str = "") -> str:
    rows = "".join(f"          - {{{one}}}\n" for one in inputs)
    return (
        f"        formula: {name}\n"
        + (f"        inputs:\n{rows}" if rows else "")
        + (f"        table: {table}\n" if table else "")
    )


SPAN = "id: span, text: Span, unit: mm"
CURRENT, LOW, HIGH = (
    "id: current, text: Current, unit: mA",
    "id: at-4-ma, text: Value at 4 mA, unit: bar, value: 0",
    "id: at-20-ma, text: Value at 20 mA, unit: bar, value: 16",
)
PRESSURE, LINE = "id: pressure, text: Pressure, unit: bar", "id: line-temperature, text: Temperature, unit: °C"
ROWS = "[{x: 4, y: -22.5}, {x: 8, y: -1.6}]"
SLIP = (
    "id: frequency, text: Frequency, unit: Hz",
    "id: poles, text: Poles, unit: 1, value: 4",
    "id: speed, text: Speed, unit: rpm",
)

GOOD = [
    ("mm", formula("belt-deflection", SPAN)),
    ("in", formula("belt-deflection", "id: span, text: Span, unit: m")),
    ("mm", formula("belt-deflection", "id: span, text: Span, unit: mm, value: 1.28 m")),
    ("bar", formula("loop-value", CURRENT, LOW, HIGH)),
    ("mbar", formula("loop-value", CURRENT, LOW, HIGH)),
    ("°F", formula("loop-value", CURRENT, LOW.replace("bar", "°C"), HIGH.replace("bar", "K"))),
    ("K", formula("superheat", PRESSURE, LINE, table=ROWS)),
    ("%", formula("motor-slip", *SLIP)),
    ("mm", ""),
]

BAD = [
    ("mm", formula("belt-bending", SPAN), "There is no formula named “belt-bending”.",
     "Did you mean “belt-deflection”?"),
    ("mm", formula("xyz", SPAN), "There is no formula named “xyz”.", "Take name, inputs and units from the list"),
    ("mm", formula("belt-deflection"), "no value for “span” (Free span between the pulleys)",
     "Add “{id: span, text: Free span between the pulleys, unit: mm}” under inputs."),
    ("mm", f"        inputs:\n          - {{{SPAN}}}\n", "has inputs, but no formula that would take them", "Name the"),
    ("mm", f"        table: {ROWS}\n", "has a table, but no formula that would take it", "Name the formula"),
    ("mm", formula("belt-deflection", SPAN, "id: force, text: Force, unit: N"), "takes no value named “force”",
     "It takes span."),
    ("bar", formula("loop-value", CURRENT, LOW), "no value for “at-20-ma” (Value at 20 mA)",
     "Add “{id: at-20-ma, text: Value at 20 mA, unit: UNIT, value: NUMBER}” under inputs."),
    ("mm", formula("belt-deflection", SPAN.replace("mm", "kg")),
     "The value “span” of “belt-deflection” is in mm, and cannot be turned into kg.", "Write mm, or another unit"),
    ("kg", formula("belt-deflection", SPAN),
     "The result of “belt-deflection” is in mm, and cannot be turned into kg.", "Write mm, or another unit"),
    ("V", formula("loop-value", CURRENT, LOW, HIGH.replace("bar", "V")),
     "“at-4-ma” of “loop-value” is in V", "Write V, or"),
    ("mA", formula("loop-current", "id: value, text: Value, unit: V", LOW, HIGH.replace("bar", "V")),
     "“at-4-ma” of “loop-current” is in V", "Write V, or"),
    ("°C", formula("superheat", PRESSURE, LINE, table=ROWS), "“superheat” is in K, and cannot be turned into °C",
     "A difference of temperatures is in K"),
    ("mm", formula("vibration-zone", "id: velocity, text: Velocity, unit: mm/s",
                   "id: group, text: Group, unit: 1, value: 2", "id: support, text: Support, unit: 1, value: 1"),
     "The result of “vibration-zone” is a plain number, and cannot be turned into mm.", "Write 1, or another unit"),
    ("bar", formula("loop-value", CURRENT, LOW.replace(", value: 0", ""), HIGH),
     "“at-4-ma” of “loop-value” is known beforehand (Value at 4 mA), but has no value.",
     "Write “value:” with a number"),
    ("%", formula("motor-slip", SLIP[0], SLIP[1].replace(", value: 4", ""), SLIP[2]),
     "“poles” of “motor-slip” is known beforehand (Number of poles), but has no value.",
     "with one of these: 2; 4; 6; 8"),
    ("%", formula("motor-slip", SLIP[0], SLIP[1].replace("4", "5"), SLIP[2]),
     "The value of “poles” does not fit: “poles” is 5; allowed are 2; 4; 6; 8; 10; 12",
     "Write “value:” with one"),
    ("%", formula("motor-slip", SLIP[0], SLIP[1].replace("4", "40"), SLIP[2]),
     "The value of “poles” does not fit: “poles” is 40; allowed is 2 to 24.", "Write “value:” with one of these"),
    ("mm", formula("belt-deflection", SPAN + ", value: 30 m"),
     "The value of “span” does not fit: “span” is 30 m; allowed is 0.01 to 20 m.", "a number from 10 to 20000 mm"),
    ("mm", formula("belt-deflection", SPAN + ", value: 3 kg"),
     "The value of “span” does not fit: “span” is in kg, which cannot be turned into mm.", "Write “value:” with a"),
    ("bar", formula("loop-value", CURRENT, LOW, HIGH.replace("16", "0")),
     "contradict each other: it must hold that the values at 4 mA and at 20 mA differ.", "Correct the values."),
    ("mm", formula("belt-deflection", SPAN, table=ROWS), "looks nothing up, but step “measure” gives it a table",
     "Take"),
    ("K", formula("superheat", PRESSURE, LINE),
     "gives the formula “superheat” no table: Dew-point temperature over pressure.", "Add “table:"),
    ("K", formula("superheat", PRESSURE, LINE, table="[{x: 4, y: 1}]"), "has one row", "Add rows"),
    ("K", formula("superheat", PRESSURE, LINE, table="[{x: 4, y: 1}, {x: 4, y: 2}]"), "4 comes after 4",
     "Sort the rows"),
    ("K", formula("superheat", PRESSURE, LINE, table="[{x: 4, y: 1}, {x: 3, y: 2}]"), "3 comes after 4",
     "Sort the rows"),
]  # fmt: skip


@pytest.mark.parametrize(("reading_unit", "lines"), GOOD)
def test_a_reading_that_can_be_worked_out_is_left_alone(reading_unit: str, lines: str, tmp_path: Path) -> None:
    assert derived(tmp_path, reading_unit, lines) == []


@pytest.mark.parametrize(("reading_unit", "lines", "message", "help"), BAD)
def test_a_reading_that_cannot_be_worked_out_is_found_once(
    reading_unit: str, lines: str, message: str, help: str, tmp_path: Path
) -> None:
    (finding,) = derived(tmp_path, reading_unit, lines)
    assert message in finding.message
    assert help in finding.help


def test_an_unknown_unit_is_no_matter_of_the_formula(tmp_path: Path) -> None:
    lines = formula("belt-deflection", SPAN.replace("mm", "furry") + ", value: 3")
    assert derived(tmp_path, "furry", lines) == []


def test_a_misspelt_input_is_met_with_the_one_that_is_missing(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(TRIPS, "{id: l2-l3,", "{id: l2-13,")
    wrong, missing = sorted(base.found("KB704"), key=lambda one: one.message)[::-1]
    assert wrong.help == "Did you mean “l2-l3”?"
    assert base.text(TRIPS).splitlines()[wrong.at.line][wrong.at.column : wrong.at.end_column] == "l2-13"
    assert "no value for “l2-l3”" in missing.message


def test_readings_of_shared_sequences_are_checked_too(tmp_path: Path) -> None:
    step = """          - id: press
            read: Press the belt down in the middle of the span.
            unit: mm
            shows: {from: 0, to: 100}
            bands:
              - {id: little, answer: Tight, from: 0, to: 20, accepted: yes, go: next}
              - {id: much, answer: Slack, above: 20, to: 100, go: next}
            not-available: {go: next}
            source: {kind: common-practice, reference: "Deflection of 1/64 of the span"}
            formula: belt-deflexion
            takes: 1 min
"""
    base = KnowledgeBase.copy_to(tmp_path)
    first = "          - id: stop\n"
    assert base.text(TABLES).count(first) == 1
    (finding,) = base.change(TABLES, first, step + first).found("KB704")
    assert (finding.at.path, finding.help) == (TABLES, "Did you mean “belt-deflection”?")
