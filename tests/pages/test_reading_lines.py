"""A derived reading says how it is worked out, where the formula comes from and where it does not apply."""

from __future__ import annotations

from pathlib import Path

from markupsafe import Markup

from kbgen.cache import no_cache
from kbgen.examine import examine, open_case
from kbgen.model.steps import Read
from kbgen.pages.figures import figure
from kbgen.pages.reading_lines import limits, reading_lines, shown_unit
from tests.check.knowledge_base import KnowledgeBase
from tests.check.test_unfit_formula import FORMULA, TRIPS, UNIT, formula


def _reading(folder: Path, unit: str, lines: str) -> Read:
    base = KnowledgeBase.copy_to(folder)
    base.change(TRIPS, UNIT, UNIT.replace('"%"', f'"{unit}"')).change(TRIPS, FORMULA, lines)
    shared = examine(base.folder, None, no_cache()).shared
    source = next(one for one in base.folder.procedure_files() if one.path == TRIPS)
    case, _ = open_case(base.folder, source, shared)
    assert case is not None
    step = case.route.places["measure"].step
    assert isinstance(step, Read)
    return step


def _told(step: Read) -> list[tuple[str, str]]:
    return [(line.word, str(Markup(str(line.html).replace("<br>", " | ")).striptags())) for line in reading_lines(step)]


def test_a_derived_reading_is_explained(tmp_path: Path) -> None:
    step = _reading(tmp_path, "%", FORMULA)
    told = _told(step)
    assert [word for word, _ in told] == [
        "Accept", "Value", "Value", "Value", "Worked out", "Formula from", "Not for", "Limit from",
    ]  # fmt: skip
    assert dict(told)["Worked out"] == (
        "Voltage unbalance: 100 × the largest deviation from the mean of the three ÷ that mean."
    )
    assert dict(told)["Formula from"].startswith("Standard: NEMA MG 1")
    assert "neutral or earth. | The output of a frequency converter" in dict(told)["Not for"]
    html = "".join(str(line.html) for line in reading_lines(step))
    assert 'href="../formulas.html#formula-voltage-unbalance"' in html


def test_known_values_and_choices_are_told(tmp_path: Path) -> None:
    step = _reading(
        tmp_path,
        "1",
        formula(
            "vibration-zone",
            "id: velocity, text: Velocity, unit: mm/s",
            "id: group, text: Group, unit: 1, value: 2",
            "id: support, text: Support, unit: 1, value: 1",
        ),
    )
    told = _told(step)
    assert [text for word, text in told if word == "Value"] == [
        "Velocity, in mm/s",
        "Group: 2 (15 to 300 kW, or shaft height 160 to 315 mm)",
        "Support: 1 (rigid)",
    ]
    assert dict(told)["Result"].startswith("1: zone A, as of a new machine | 2: zone B")
    assert dict(told)["Accept"] == "from 0 to 2"
    assert shown_unit(step) == "(a plain number)"


def test_a_table_is_shown_for_who_looks_it_up_by_hand(tmp_path: Path) -> None:
    step = _reading(
        tmp_path,
        "K",
        formula(
            "superheat",
            "id: pressure, text: Pressure, unit: bar",
            "id: line-temperature, text: Temperature, unit: °C",
            table="[{x: 4, y: -22.5}, {x: 8, y: -1.6}]",
        ),
    )
    (html,) = (str(line.html) for line in reading_lines(step) if line.word == "Table")
    assert '<th scope="col">Pressure, bar</th><th scope="col">Dew-point temperature, °C</th>' in html
    assert "<tr><td>4</td><td>−22.5</td></tr><tr><td>8</td><td>−1.6</td></tr>" in html


def test_words_of_authors_are_escaped(tmp_path: Path) -> None:
    lines = FORMULA.replace("Voltage between L1 and L2", '"<b>Voltage</b>"')
    html = "".join(str(line.html) for line in reading_lines(_reading(tmp_path, "%", lines)))
    assert "&lt;b&gt;Voltage&lt;/b&gt;, in V" in html and "<b>" not in html


def test_limits_name_the_unit_once(tmp_path: Path) -> None:
    step = _reading(tmp_path, "%", FORMULA)
    assert [limits(band, "%") for band in step.bands] == ["from 0 to 2 %", "above 2 to 100 %"]


def test_numbers_are_printed_as_people_write_them() -> None:
    assert [figure(one) for one in (0, -22.5, 5000, 1e6, 1e14, 4e21, 1e-6, 2.5e-5, 0.001)] == [
        "0", "−22.5", "5,000", "1,000,000", "10¹⁴", "4 × 10²¹", "10⁻⁶", "2.5 × 10⁻⁵", "0.001",
    ]  # fmt: skip
