"""Rules on readings: units, bands that cover all that can be shown, and sources that can be looked up."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import TypeVar

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbgen.check.kb702_band_gap import of_reading
from kbgen.model.steps import Band, Instrument, LimitSource, OtherAnswer, Read
from kbgen.model.values import Id, Prose, Quantity, Ref, Text, parse_quantity
from kbgen.model.words import SourceKind
from kbgen.place import Span
from tests.check.knowledge_base import TABLES, KnowledgeBase

TRIPS = "conveyors/drive-trips.yaml"
SHOWS = "shows: {from: 0, to: 100}"
EVEN = "{id: even, answer: Even enough, from: 0, to: 2, accepted: yes, go: watch}"
UNEVEN = "{id: uneven, answer: Too uneven, above: 2, to: 100, go: call-service}"
REFERENCE = "NEMA MG 1, clause 14.36 (unbalance of voltages); quoted from memory"
READ_IN_SEQUENCE = """          - id: level
            read: Read the sight glass.
            unit: mm
            shows: {from: 0, to: 50}
            bands:
              - {id: low, answer: Low, from: 0, below: 20, go: unlock}
              - {id: right, answer: Right, from: 20, to: 50, accepted: yes, go: unlock}
            not-available: {go: unlock}
            source: {kind: common-practice, reference: Marks of the site on the glass}
            takes: 1 min
"""
BEFORE_UNLOCK = "          - id: unlock\n"


def messages(base: KnowledgeBase, code: str) -> list[str]:
    return [finding.message for finding in base.found(code)]


def with_bands(folder: Path, *bands: str) -> KnowledgeBase:
    """The example with other limits of its two bands or with more bands than two."""
    lines = [
        f"          - {{id: band-{number}, answer: Band {number}, {limits}, go: watch}}\n"
        for number, limits in enumerate(bands, start=1)
    ]
    old = f"          - {EVEN}\n          - {UNEVEN}\n"
    return KnowledgeBase.copy_to(folder).change(TRIPS, old, "".join(lines))


# --- KB702: the interval is named -----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("bands", "told"),
    [
        (("from: 0, below: 10", "above: 12, to: 100"), "10 % to 12 % leads nowhere"),
        (("from: 0, to: 10", "above: 12, to: 100"), "above 10 % up to 12 % leads nowhere"),
        (("from: 0, below: 10", "from: 12, to: 100"), "10 % to below 12 % leads nowhere"),
        (("from: 0, to: 10", "from: 12, to: 100"), "between 10 % and 12 % leads nowhere"),
        (("from: 0, below: 20", "above: 20, to: 100"), "exactly 20 % leads nowhere"),
        (("above: 0, to: 20", "above: 20, to: 100"), "exactly 0 % leads nowhere"),
        (("from: 0, to: 20", "above: 20, below: 100"), "exactly 100 % leads nowhere"),
        (("from: 0, to: 20", "above: 20, to: 90"), "above 90 % up to 100 % leads nowhere"),
        (("from: 0, to: 20", "from: 20, to: 100"), "exactly 20 % leads to both “band-1” and “band-2”"),
        (("from: 0, to: 12", "from: 10, to: 100"), "10 % to 12 % leads to both “band-1” and “band-2”"),
        (("to: 12", "from: 10", "from: 11, to: 12"), "11 % to 12 % leads to “band-1”, “band-2” and “band-3”"),
        (("from: 0, to: 20", "above: 2000 ppm, to: 100"), "above 0.2 % up to 20 % leads to both"),
    ],
)
def test_a_gap_or_an_overlap_is_named(bands: tuple[str, ...], told: str, tmp_path: Path) -> None:
    assert any(told in message for message in messages(with_bands(tmp_path, *bands), "KB702"))


@pytest.mark.parametrize(
    "bands",
    [
        ("from: 0, to: 20", "above: 20, to: 100"),
        ("to: 20", "above: 20"),
        ("from: 0, below: 20", "from: 20, to: 100"),
        ("from: 0, to: 20 %", "above: 200000 ppm, to: 1e6 ppm"),
        ("from: -5, below: 20", "from: 20, below: 20.5", "from: 20.5, to: 101"),
        ("above: 20", "to: 20"),
    ],
)
def test_bands_without_gap_and_overlap_are_quiet(bands: tuple[str, ...], tmp_path: Path) -> None:
    base = with_bands(tmp_path, *bands)
    assert messages(base, "KB702") == [] == messages(base, "KB701")


def test_a_band_beyond_the_instrument_is_never_taken(tmp_path: Path) -> None:
    base = with_bands(tmp_path, "from: 0, to: 20", "above: 20, to: 100", "above: 100")
    (message,) = messages(base, "KB702")
    assert message.startswith("The band “band-3” of step “measure” lies wholly outside of 0 % to 100 %")


def test_a_band_without_any_number_fits_no_reading(tmp_path: Path) -> None:
    (message,) = messages(with_bands(tmp_path, "from: 0", "above: 5, to: 5"), "KB702")
    assert message == "No reading fits the band “band-2” of step “measure”: it ends before it starts."


def test_a_band_that_ends_before_it_starts_in_another_unit_is_found(tmp_path: Path) -> None:
    base = with_bands(tmp_path, "from: 0", "from: 6 %, to: 50000 ppm")
    assert messages(base, "KB307") == []
    assert messages(base, "KB702") == ["No reading fits the band “band-2” of step “measure”: it ends before it starts."]


@pytest.mark.parametrize(("low", "high"), [(100, 0), (5, 5)])
def test_the_range_of_the_instrument_must_have_an_extent(low: int, high: int, tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(TRIPS, SHOWS, f"shows: {{from: {low}, to: {high}}}")
    assert messages(base, "KB702") == [
        f"The instrument of step “measure” shows from {low} % to {high} %, which is no range."
    ]


@pytest.mark.parametrize("limits", ["above: 5, to: 2", "from: 0, above: 0, to: 2", "accepted: yes"])
def test_a_fault_of_one_band_is_not_reported_twice(limits: str, tmp_path: Path) -> None:
    base = with_bands(tmp_path, limits, "above: 2, to: 100")
    assert len(messages(base, "KB307")) == 1
    assert messages(base, "KB702") == []


def test_the_other_band_of_an_overlap_is_shown(tmp_path: Path) -> None:
    (finding,) = with_bands(tmp_path, "from: 0, to: 20", "from: 20, to: 100").found("KB702")
    (label,) = finding.labels
    assert label.text == "“band-1” claims it"
    assert label.at.line == finding.at.line - 1


# --- KB702 against an oracle that probes ----------------------------------------------------------------------------

AT = Span("made.yaml", 0, 0, 0, 1)
T = TypeVar("T", bound=Text)
TOP = 6
PROBES = [Fraction(quarter, 4) for quarter in range(4 * TOP + 1)]
HALVES = st.integers(-2, 2 * TOP + 2).map(lambda half: Fraction(half, 2))
WRITINGS: list[Callable[[Fraction], str]] = [
    lambda volts: f"{float(volts)}",
    lambda volts: f"{float(volts)} V",
    lambda volts: f"{float(volts * 1000)} mV",
    lambda volts: f"{float(volts / 1000)} kV",
]
LIMITS = st.none() | st.tuples(HALVES, st.booleans(), st.sampled_from(WRITINGS))
Limit = tuple[Fraction, bool, Callable[[Fraction], str]] | None


def said(kind: type[T], text: str) -> T:
    made = kind(text)
    made.at = AT
    return made


def quantity(limit: Limit, itself: bool) -> Quantity | None:
    return parse_quantity(limit[2](limit[0])) if limit and limit[1] is itself else None


def reading(bands: list[tuple[Limit, Limit]]) -> Read:
    go = said(Ref, "next")
    made = [
        Band(
            at=AT,
            id=said(Id, f"b{number}"),
            answer=said(Text, "x"),
            go=go,
            from_=quantity(low, True),
            above=quantity(low, False),
            to=quantity(high, True),
            below=quantity(high, False),
        )
        for number, (low, high) in enumerate(bands)
    ]
    return Read(
        at=AT,
        id=said(Id, "volts"),
        read=said(Prose, "Read it."),
        unit=said(Text, "V"),
        shows=Instrument(at=AT, from_=parse_quantity("0"), to=parse_quantity(f"{TOP} V")),
        bands=tuple(made),
        not_available=OtherAnswer(at=AT, go=go),
        source=LimitSource(at=AT, kind=SourceKind.JUDGEMENT, reference=said(Text, "x")),
    )


def holds(band: tuple[Limit, Limit], volts: Fraction) -> bool:
    low, high = band
    starts = low is None or volts > low[0] or (low[1] and volts == low[0])
    ends = high is None or volts < high[0] or (high[1] and volts == high[0])
    return starts and ends


def is_told(words: str, volts: Fraction) -> bool:
    """Read an interval in words back."""
    low, high = (Fraction(number) for number in (re.findall(r"[-\d.]+", words) * 2)[:2])
    if words.startswith("between"):
        return low < volts < high
    if words.startswith("above"):
        return low < volts <= high
    if "below" in words:
        return low <= volts < high
    return low <= volts <= high


def told_by(found: list[str], pattern: str) -> list[re.Match[str]]:
    return [match for match in (re.match(rf"At step “volts”, (.*) leads {pattern}", one) for one in found) if match]


SENSIBLE = st.tuples(LIMITS, LIMITS).filter(
    lambda band: band != (None, None) and not (band[0] and band[1] and band[0][0] > band[1][0])
)


@given(st.lists(SENSIBLE, min_size=2, max_size=5))
def test_gaps_and_overlaps_are_those_that_probing_finds(bands: list[tuple[Limit, Limit]]) -> None:
    found = [finding.message for finding in of_reading(reading(bands))]
    gaps = told_by(found, "nowhere")
    overlaps = told_by(found, "to (.*): which way")
    for volts in PROBES:
        holders = {f"b{number}" for number, band in enumerate(bands) if holds(band, volts)}
        assert [is_told(gap[1], volts) for gap in gaps].count(True) == (not holders)
        claims = [set(re.findall("“(b.)”", overlap[2])) for overlap in overlaps if is_told(overlap[1], volts)]
        assert claims == ([holders] if len(holders) > 1 else [])


@given(st.lists(SENSIBLE, min_size=2, max_size=5))
def test_bands_that_no_probe_takes_are_reported(bands: list[tuple[Limit, Limit]]) -> None:
    found = "\n".join(finding.message for finding in of_reading(reading(bands)))
    idle = set(re.findall("band “(b.)” of step “volts”(?: lies wholly outside|: it ends before)", found))
    assert idle == {f"b{n}" for n, band in enumerate(bands) if not any(holds(band, volts) for volts in PROBES)}


@given(st.lists(HALVES.filter(lambda volts: 0 < volts < TOP), min_size=1, max_size=4, unique=True), st.data())
def test_bands_that_meet_at_their_ends_are_quiet(ends: list[Fraction], data: st.DataObject) -> None:
    cuts = [(volts, data.draw(st.booleans())) for volts in sorted(ends)]
    write = [data.draw(st.sampled_from(WRITINGS)) for _ in cuts]
    starts: list[Limit] = [
        None,
        *((volts, not ends_it, how) for (volts, ends_it), how in zip(cuts, write, strict=True)),
    ]
    stops: list[Limit] = [*((volts, ends_it, WRITINGS[1]) for volts, ends_it in cuts), None]
    assert list(of_reading(reading(list(zip(starts, stops, strict=True))))) == []


# --- KB701: units ---------------------------------------------------------------------------------------------------

SOURCE_POINTS = "    points: [q1]\n    prove: Test each phase against each other"


@pytest.mark.parametrize(
    ("file", "good", "bad", "told"),
    [
        (TRIPS, '        unit: "%"\n', "        unit: smoots\n", "“smoots” is no unit that is known"),
        (TRIPS, "text: Voltage between L1 and L2, unit: V}", "text: x, unit: Volt!}", "“Volt!” is no unit"),
        (TRIPS, SHOWS, "shows: {from: 0, to: 100 bar}", "“100 bar” cannot be an end of what the instrument"),
        (TRIPS, "from: 0, to: 2, accepted", "from: 0, to: 2 mm, accepted", "cannot be a limit of the band “even”"),
        (TRIPS, "from: 0, to: 2, accepted", "from: 0, to: 2 °, accepted", "“2 °” cannot be a limit of the band"),
        (TRIPS, "below: 50 V", "below: 50", "“50” has no unit, but stands for what a voltage test shows"),
        (TRIPS, "below: 50 V", "below: 50 bar", "“50 bar” cannot be what a voltage test shows"),
        (TRIPS, "below: 50 V", "below: 50 v", "“v” is no unit that is known"),
        (TRIPS, "by: voltage-test\n        below: 50 V", "by: thermometer\n        below: 50 V", "a thermometer"),
        (TABLES, "below: 50 V", "below: 50 Ω", "“50 Ω” cannot be what a voltage test shows in step “test”"),
        (TABLES, "below: 50 V", "below: 50", "“50” has no unit"),
    ],
)
def test_a_unit_that_does_not_fit_is_reported_once(file: str, good: str, bad: str, told: str, tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(file, good, bad)
    (finding,) = base.found("KB701")
    assert told in finding.message
    assert finding.at.path == file
    assert messages(base, "KB702") == []


@pytest.mark.parametrize(
    ("good", "bad"),
    [
        ('        unit: "%"\n', "        unit: 1\n"),
        (SHOWS, "shows: {from: 0 %, to: 1e6 ppm}"),
        ("below: 50 V", "below: 50000 mV"),
        ("below: 50 V", "below: 50 V AC"),
        ("by: voltage-test\n        below: 50 V", "by: thermometer\n        below: 50 °C"),
        ("by: voltage-test\n        below: 50 V", "by: gauge\n        below: 10 %"),
        ("text: Voltage between L1 and L2, unit: V}", "text: x, unit: kPa·s}"),
    ],
)
def test_other_units_of_the_same_kind_fit(good: str, bad: str, tmp_path: Path) -> None:
    assert messages(KnowledgeBase.copy_to(tmp_path).change(TRIPS, good, bad), "KB701") == []


def test_small_and_large_letters_are_pointed_out(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(TRIPS, "below: 50 V", "below: 50 v")
    (finding,) = base.found("KB701")
    assert finding.help == "Did you mean “V”? Small and large letters differ."


@pytest.mark.parametrize(
    ("kind", "below", "told"),
    [
        ("pneumatic", "50 V", ["“50 V” cannot be the pressure that the gauge of step “test” shows"]),
        ("hydraulic", "2 %", ["“2 %” cannot be the pressure that the gauge of step “test” shows"]),
        ("hydraulic", "2 bar", []),
        ("pneumatic", "20 kPa", []),
        ("chemical", "10 %", []),
    ],
)
def test_a_gauge_in_a_shared_sequence_is_judged_by_what_it_is_run_for(
    kind: str, below: str, told: list[str], tmp_path: Path
) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    base.change(
        TABLES,
        "            by: voltage-test\n            below: 50 V\n",
        f"            by: gauge\n            below: {below}\n",
    )
    base.change(TABLES, "    kind: electrical\n    magnitude: 400 V AC", f"    kind: {kind}\n    magnitude: 400 V AC")
    found = base.found("KB701")
    assert [finding.message.split(":")[0] for finding in found] == told
    assert {finding.at.path for finding in found} <= {TABLES}


@pytest.mark.parametrize(
    ("stored", "told"),
    [
        ("resistance: 200 kΩ, capacitance: 470 µF, voltage: 622 V, safe-voltage: 50 V", []),
        ("pressure: 100 psi, volume: 24 L, mass: 38 kg, height: 600 mm, temperature: 90 °C", []),
        ("capacitance: 470", ["“470” has no unit, but stands for the capacitance of “conveyor-mains”."]),
        ("voltage: 622 A", ["“622 A” cannot be the voltage of “conveyor-mains”: it cannot be turned into V."]),
        ("mass: 38 N", ["“38 N” cannot be the mass of “conveyor-mains”: it cannot be turned into kg."]),
        ("temperature: 90 C", ["“C” is no unit that is known, so that nothing can be compared with it."]),
    ],
)
def test_data_of_stored_energy_have_their_units(stored: str, told: list[str], tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    base.change(TABLES, SOURCE_POINTS, f"    stored: {{{stored}}}\n{SOURCE_POINTS}")
    assert messages(base, "KB701") == told


# --- Readings inside shared sequences -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("good", "bad", "code"),
    [
        ("unit: mm\n", "unit: mmm\n", "KB701"),
        ("from: 20, to: 50", "from: 20, to: 50 V", "KB701"),
        ("from: 20, to: 50", "above: 20, to: 50", "KB702"),
        ("from: 20, to: 50", "from: 60, to: 50", "KB307"),
        ("Marks of the site on the glass", "Common practice", "KB703"),
    ],
)
def test_a_shared_sequence_is_reported_once_in_its_own_file(good: str, bad: str, code: str, tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path).change(TABLES, BEFORE_UNLOCK, READ_IN_SEQUENCE + BEFORE_UNLOCK)
    readings = {"KB307", "KB701", "KB702", "KB703"}
    assert not base.codes() & readings
    base.change(TABLES, good, bad)
    assert [(one.rule.code, one.at.path) for one in base.examine().found if one.rule.code in readings] == [
        (code, TABLES)
    ]


# --- KB703: sources -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "reference"),
    [
        ("standard", "The standard"),
        ("standard", "EN standard"),
        ("standard", "Motor norm"),
        ("handbook", "Ohm's law"),
        ("makers-manual", "Maker's manual"),
        ("makers-manual", "See the manufacturer’s manual."),
        ("common-practice", "common practice"),
        ("judgement", "Experience"),
        ("judgement", "n/a"),
        ("judgement", "?"),
    ],
)
def test_a_source_that_names_nothing_is_vague(kind: str, reference: str, tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    base.change(TRIPS, "{kind: standard, reference", f"{{kind: {kind}, reference").change(TRIPS, REFERENCE, reference)
    (message,) = messages(base, "KB703")
    assert message.startswith(f"“{reference}”")


@pytest.mark.parametrize(
    ("kind", "reference"),
    [
        ("standard", "IEC 60204-1"),
        ("standard", "Motor standard of the national committee"),
        ("handbook", "Ohm's law, as in every electrical handbook"),
        ("makers-manual", "Plate of the drive"),
        ("makers-manual", "Manual of the grader"),
        ("common-practice", "Refrigeration trade"),
        ("common-practice", "Site practice"),
        ("judgement", "Maintenance lead"),
    ],
)
def test_a_source_that_names_something_is_not_vague(kind: str, reference: str, tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    base.change(TRIPS, "{kind: standard, reference", f"{{kind: {kind}, reference").change(TRIPS, REFERENCE, reference)
    assert messages(base, "KB703") == []


def test_the_source_of_data_on_stored_energy_counts_as_well(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    stored = "    stored: {voltage: 622 V, source: {kind: makers-manual, reference: Manual}}\n"
    base.change(TABLES, SOURCE_POINTS, stored + SOURCE_POINTS)
    assert messages(base, "KB703") == ["“Manual” names nothing that could be looked up when the limit is doubted."]
