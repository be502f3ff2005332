"""Formulas of heat and cold: superheat, subcooling, hot spots."""

from __future__ import annotations

from kbgen.formulas.formula import Basis, Choice, Formula, Input, Result, Source, TableUse


def _against_saturation(
    name: str, title: str, line: str, saturation: str, expression: str, in_words: str, not_for: str
) -> Formula:
    return Formula(
        name=name,
        title=title,
        inputs=(
            Input(name="pressure", what=f"Pressure in the {line}", unit="bar", lowest=-1, highest=250),
            Input(name="line-temperature", what=f"Temperature of the {line}", unit="°C", lowest=-100, highest=200),
        ),
        result=Result(what=title, unit="K", lowest=-300, highest=300),
        expression=expression,
        in_words=in_words,
        source=Source(Basis.HANDBOOK, "Definition in any handbook of refrigeration; the table is the author's"),
        not_for=(
            not_for,
            "A table of another refrigerant, or of gauge pressure for absolute pressure.",
            "Pressures outside the table.",
        ),
        table=TableUse(x="Pressure", x_like="pressure", y=f"{saturation} temperature", y_like="line-temperature"),
    )


SUPERHEAT = _against_saturation(
    "superheat",
    "Superheat",
    "suction line",
    "Dew-point",
    "line_temperature - interpolate(table, pressure)",
    "temperature of the suction line − dew-point temperature at its pressure, from the table",
    "The bubble-point column of a blend: superheat counts from the dew point.",
)

SUBCOOLING = _against_saturation(
    "subcooling",
    "Subcooling",
    "liquid line",
    "Bubble-point",
    "interpolate(table, pressure) - line_temperature",
    "bubble-point temperature at the pressure of the liquid line, from the table − temperature of the line",
    "The dew-point column of a blend: subcooling counts from the bubble point.",
)

_HOT = Input(name="temperature", what="Temperature of the part", unit="°C", lowest=-50, highest=1000)
# To a thousandth of a kelvin, so that 43.3 °C and 40.3 °C differ by 3 K and not by a hair more or less.
_DIFFERENCE = "difference = floor((temperature - {other}) * 1000 + 0.5) / 1000\n"
_NETA = Source(
    Basis.STANDARD,
    "ANSI/NETA table 100.18, as quoted publicly; that a value in one of its gaps counts as worse is kbgen's own rule",
)
_NOT_NETA = (
    "Parts under different loads, or under little load.",
    "Shiny metal, or parts seen through glass or covers.",
    "Parts whose maker states a highest temperature: that one counts.",
)

HOT_SPOT_SIMILAR = Formula(
    name="hot-spot-similar",
    title="Class of a hot spot, against a similar part",
    inputs=(
        _HOT,
        Input(
            name="similar",
            what="Temperature of a similar part under similar load",
            unit="°C",
            lowest=-50,
            highest=1000,
        ),
    ),
    result=Result(
        what="Class",
        unit="1",
        lowest=1,
        highest=4,
        classes=(
            Choice(1, "nothing found (below 1 K)"),
            Choice(2, "possible deficiency (1 to 3 K)"),
            Choice(3, "probable deficiency (above 3 to 15 K)"),
            Choice(4, "major deficiency (above 15 K)"),
        ),
    ),
    expression=_DIFFERENCE.format(other="similar")
    + "1 if difference < 1 else 2 if difference <= 3 else 3 if difference <= 15 else 4",
    in_words="compare the difference of the two temperatures with 1, 3 and 15 K",
    source=_NETA,
    not_for=_NOT_NETA,
)

HOT_SPOT_AMBIENT = Formula(
    name="hot-spot-ambient",
    title="Class of a hot spot, against the air around",
    inputs=(_HOT, Input(name="ambient", what="Temperature of the air around", unit="°C", lowest=-50, highest=100)),
    result=Result(
        what="Class",
        unit="1",
        lowest=1,
        highest=5,
        classes=(
            Choice(1, "nothing found (below 1 K)"),
            Choice(2, "possible deficiency (1 to 10 K)"),
            Choice(3, "probable deficiency (above 10 to 20 K)"),
            Choice(4, "watch it until it is mended (above 20 to 40 K)"),
            Choice(5, "major deficiency (above 40 K)"),
        ),
    ),
    expression=_DIFFERENCE.format(other="ambient")
    + "1 if difference < 1 else 2 if difference <= 10 else 3 if difference <= 20 else 4 if difference <= 40 else 5",
    in_words="compare the difference of the two temperatures with 1, 10, 20 and 40 K",
    source=_NETA,
    not_for=_NOT_NETA,
)

FORMULAS = (SUPERHEAT, SUBCOOLING, HOT_SPOT_SIMILAR, HOT_SPOT_AMBIENT)
