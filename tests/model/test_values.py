"""Quantities, times, intervals and dates as authors write them."""

from __future__ import annotations

import datetime

import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import given, settings
from hypothesis import strategies as st

from kbgen.model.values import Period, parse_duration, parse_period, parse_quantity

MANY = settings(max_examples=200, deadline=None)


@pytest.mark.parametrize(
    ("text", "number", "unit"),
    [
        ("12.5 V", 12.5, "V"),
        ("12.5V", 12.5, "V"),
        ("-3", -3, ""),
        ("−3 °C", -3, "°C"),
        ("+4 mA", 4, "mA"),
        ("1e3 Ω", 1000, "Ω"),
        ("2.5E-3 m", 0.0025, "m"),
        ("0 l/min", 0, "l/min"),
        (" 7 %  ", 7, "%"),
    ],
)
def test_quantities(text: str, number: float, unit: str) -> None:
    quantity = parse_quantity(text)
    assert (quantity.number, quantity.unit, str(quantity)) == (number, unit, text.strip())


@pytest.mark.parametrize("text", ["", "V", "V 12", ".5", "--3", "1e999 V", "9" * 400, "nan", "inf"])
def test_no_quantities(text: str) -> None:
    with pytest.raises(ValueError, match="a number"):
        parse_quantity(text)


@MANY
@given(st.decimals(-(10**6), 10**6, places=3), st.sampled_from(["", "V", "mm", "°C", "l/min", "kΩ"]))
def test_a_written_quantity_is_read_back(number: object, unit: str) -> None:
    quantity = parse_quantity(f"{number} {unit}")
    assert (quantity.number, quantity.unit) == (float(str(number)), unit)


@pytest.mark.parametrize(
    ("text", "seconds"),
    [("90 s", 90), ("5 min", 300), ("1 h 30 min", 5400), ("2 d", 172_800), ("0 s", 0), ("0.5 h", 1800), ("5min", 300)],
)
def test_durations(text: str, seconds: int) -> None:
    assert parse_duration(text).seconds == seconds


@pytest.mark.parametrize(
    "text", ["", "5", "5 m", "min", "5 minutes", "-5 min", "1:30", "5 min or so", "9" * 400 + " s"]
)
def test_no_durations(text: str) -> None:
    with pytest.raises(ValueError, match="a time"):
        parse_duration(text)


@MANY
@given(st.integers(0, 99), st.integers(0, 23), st.integers(0, 59), st.integers(0, 59))
def test_the_parts_of_a_duration_add_up(days: int, hours: int, minutes: int, seconds: int) -> None:
    expected = datetime.timedelta(days=days, hours=hours, minutes=minutes, seconds=seconds).total_seconds()
    assert parse_duration(f"{days} d {hours} h {minutes} min {seconds} s").seconds == expected


@pytest.mark.parametrize(
    ("text", "months"), [("1 month", 1), ("6 months", 6), ("1 year", 12), ("2 years", 24), ("3months", 3)]
)
def test_periods(text: str, months: int) -> None:
    assert parse_period(text).months == months


@pytest.mark.parametrize(
    "text", ["", "0 months", "6", "months", "-1 months", "1.5 years", "90 d", "9" * 5000 + " months"]
)
def test_no_periods(text: str) -> None:
    with pytest.raises(ValueError, match="an interval"):
        parse_period(text)


@MANY
@given(st.text(max_size=30) | st.from_regex(r"-?[0-9.eE]{1,20} ?(s|min|V|months|years)?"))
def test_any_text_is_read_or_refused(text: str) -> None:
    for parse in (parse_quantity, parse_duration, parse_period):
        try:
            assert str(parse(text)) == text.strip()
        except ValueError as error:
            assert str(error).startswith(("a ", "an "))


@MANY
@given(st.dates(datetime.date(1990, 1, 1), datetime.date(2200, 12, 31)), st.integers(1, 600))
def test_a_period_ends_where_dateutil_says(day: datetime.date, months: int) -> None:
    assert Period(months, "").after(day) == day + relativedelta(months=months)


@pytest.mark.parametrize(
    ("day", "months", "due"),
    [
        ("2026-01-31", 1, "2026-02-28"),
        ("2027-01-31", 13, "2028-02-29"),
        ("2024-02-29", 12, "2025-02-28"),
        ("2026-10-31", 1, "2026-11-30"),
    ],
)
def test_the_last_day_of_a_month_stays_inside_the_month(day: str, months: int, due: str) -> None:
    assert Period(months, "").after(datetime.date.fromisoformat(day)).isoformat() == due


def test_the_calendar_has_an_end() -> None:
    assert Period(12, "").after(datetime.date(9999, 12, 31)) == datetime.date.max
