"""Formulas of the electrical trades: unbalance, insulation, capacitors, motors."""

from __future__ import annotations

from kbgen.formulas.formula import Basis, Choice, Formula, Input, Requirement, Result, Source


def _unbalance(
    name: str, title: str, inputs: tuple[Input, Input, Input], source: Source, not_for: tuple[str, ...]
) -> Formula:
    a, b, c = (one.name.replace("-", "_") for one in inputs)
    return Formula(
        name=name,
        title=title,
        inputs=inputs,
        result=Result(what="Unbalance", unit="%", lowest=0, highest=200),
        expression=(
            f"mean = ({a} + {b} + {c}) / 3\n100 * max(abs({a} - mean), abs({b} - mean), abs({c} - mean)) / mean"
        ),
        in_words="100 × the largest deviation from the mean of the three ÷ that mean",
        source=source,
        not_for=not_for,
        requires=(Requirement(f"{a} + {b} + {c} > 0", "at least one of the three values is above zero"),),
    )


def _voltage(name: str, between: str) -> Input:
    return Input(name=name, what=f"Voltage {between}", unit="V", lowest=0, highest=1e6)


def _current(name: str, phase: str) -> Input:
    return Input(name=name, what=f"Current in {phase}", unit="A", lowest=0, highest=1e6)


def _winding(name: str, between: str) -> Input:
    return Input(name=name, what=f"Resistance {between}", unit="Ω", lowest=0, highest=1e6)


VOLTAGE_UNBALANCE = _unbalance(
    "voltage-unbalance",
    "Voltage unbalance",
    (_voltage("l1-l2", "L1 to L2"), _voltage("l2-l3", "L2 to L3"), _voltage("l3-l1", "L3 to L1")),
    Source(Basis.STANDARD, "NEMA MG 1, definition of voltage unbalance, as quoted by several public sources"),
    (
        "Voltages between a phase and neutral or earth.",
        "The output of a frequency converter, unless the meter is made for it.",
        "The ratio of negative to positive sequence that IEC standards call unbalance.",
    ),
)

CURRENT_UNBALANCE = _unbalance(
    "current-unbalance",
    "Current unbalance",
    (_current("l1", "L1"), _current("l2", "L2"), _current("l3", "L3")),
    Source(Basis.PRACTICE, "Worked like the voltage unbalance of NEMA MG 1"),
    ("Motors that run idle or nearly so.", "Loads that are not three-phase.", "The input of a converter at part load."),
)

RESISTANCE_UNBALANCE = _unbalance(
    "resistance-unbalance",
    "Unbalance of winding resistance",
    (_winding("u-v", "U to V"), _winding("v-w", "V to W"), _winding("w-u", "W to U")),
    Source(Basis.STANDARD, "ANSI/EASA AR100, as quoted by an instrument maker"),
    (
        "Measurements through cables, contactors or a converter: measure at the motor alone.",
        "Windings at different temperatures.",
        "An open phase, which has no resistance to enter.",
    ),
)

_INSULATION = Input(name="resistance", what="Insulation resistance", unit="MΩ", lowest=0, highest=1e6)
_AT_40 = "Insulation resistance at 40 °C"

INSULATION_THERMOPLASTIC = Formula(
    name="insulation-at-40-thermoplastic",
    title="Insulation resistance at 40 °C, thermoplastic insulation",
    inputs=(
        _INSULATION,
        Input(name="temperature", what="Temperature of the winding", unit="°C", lowest=0, highest=85),
    ),
    result=Result(what=_AT_40, unit="MΩ", lowest=0, highest=1e8),
    expression="resistance * exp(ln(0.5) * (40 - temperature) / 10)",
    in_words="resistance × 0.5 to the power of ((40 − temperature) ÷ 10): it halves for each 10 K that it gets warmer",
    source=Source(Basis.STANDARD, "IEEE 43, halving rule for thermoplastic insulation", from_memory=True),
    not_for=(
        "Thermosetting insulation, such as epoxy or polyester with mica.",
        "Windings below the dew point, or wet ones.",
        "Cables, whose makers give factors of their own.",
    ),
)

INSULATION_THERMOSETTING = Formula(
    name="insulation-at-40-thermosetting",
    title="Insulation resistance at 40 °C, thermosetting insulation",
    inputs=(
        _INSULATION,
        Input(name="temperature", what="Temperature of the winding", unit="°C", lowest=10, highest=85),
    ),
    result=Result(what=_AT_40, unit="MΩ", lowest=0, highest=1e8),
    expression=(
        "slope = 1245 if temperature < 40 else 4230\nresistance * exp(-slope * (1 / (temperature + 273) - 1 / 313))"
    ),
    in_words=(
        "resistance × e to the power of (−b × (1 ÷ (temperature + 273) − 1 ÷ 313)); b is 1245 below 40 °C, else 4230"
    ),
    source=Source(Basis.STANDARD, "IEEE 43-2013, thermosetting insulation, 10 to 85 °C", from_memory=True),
    not_for=(
        "Thermoplastic insulation, such as asphalt with mica or shellac.",
        "Windings below the dew point, or wet ones.",
        "Cables, whose makers give factors of their own.",
    ),
)

POLARIZATION_INDEX = Formula(
    name="polarization-index",
    title="Polarization index",
    inputs=(
        Input(name="after-1-min", what="Insulation resistance after 1 min", unit="MΩ", lowest=0.001, highest=5000),
        Input(name="after-10-min", what="Insulation resistance after 10 min", unit="MΩ", lowest=0, highest=1e6),
    ),
    result=Result(what="Polarization index", unit="1", lowest=0, highest=1e9),
    expression="after_10_min / after_1_min",
    in_words="resistance after 10 minutes ÷ resistance after 1 minute, at one test voltage",
    source=Source(Basis.STANDARD, "IEEE 43, as quoted in public manuals of insulation testers"),
    not_for=(
        "A resistance above 5,000 MΩ after one minute: the ratio says nothing there.",
        "Random-wound machines with modern insulation, whose absorption current dies within a minute or two.",
        "A value above 8 is no proof of health: it may mean brittle insulation.",
    ),
)

_R = Input(name="resistance", what="Resistance of the discharge path", unit="Ω", lowest=0.001, highest=1e9, fixed=True)
_C = Input(name="capacitance", what="Capacitance", unit="µF", lowest=1e-6, highest=1e9, fixed=True)
_START = Input(name="start-voltage", what="Voltage at the start", unit="V", lowest=0.001, highest=1e5)
_NO_PROOF = (
    "A proof that it is dead: a resistor can be open. Only the test proves.",
    "Capacitors that are still fed, by a supply, a battery or a motor that turns.",
    "Discharge by a constant current or by a converter's brake.",
)
_DISCHARGE = "Discharge of a capacitor through a resistor, law of physics"

DISCHARGE_TIME = Formula(
    name="discharge-time",
    title="Discharge time of a capacitor",
    inputs=(
        _START,
        Input(name="end-voltage", what="Voltage to come down to", unit="V", lowest=0.001, highest=1e5, fixed=True),
        _R,
        _C,
    ),
    result=Result(what="Time", unit="s", lowest=0, highest=1e14),
    expression="resistance * (capacitance * 1e-6) * ln(start_voltage / end_voltage)",
    in_words="resistance × capacitance × natural logarithm of (voltage at the start ÷ voltage to come down to)",
    source=Source(Basis.DEFINITION, _DISCHARGE),
    not_for=_NO_PROOF,
    requires=(Requirement("start_voltage >= end_voltage", "the voltage comes down, not up"),),
)

REMAINING_VOLTAGE = Formula(
    name="remaining-voltage",
    title="Voltage left in a capacitor",
    inputs=(_START, Input(name="time", what="Time since it was cut off", unit="s", lowest=0, highest=1e9), _R, _C),
    result=Result(what="Voltage", unit="V", lowest=0, highest=1e5),
    expression="start_voltage * exp(-time / (resistance * (capacitance * 1e-6)))",
    in_words="voltage at the start × e to the power of (−time ÷ (resistance × capacitance))",
    source=Source(Basis.DEFINITION, _DISCHARGE),
    not_for=_NO_PROOF,
)

MOTOR_SLIP = Formula(
    name="motor-slip",
    title="Slip of an induction motor",
    inputs=(
        Input(name="frequency", what="Frequency of the supply", unit="Hz", lowest=1, highest=400),
        Input(
            name="poles",
            what="Number of poles",
            unit="1",
            lowest=2,
            highest=24,
            fixed=True,
            choices=tuple(Choice(poles) for poles in range(2, 26, 2)),
        ),
        Input(name="speed", what="Speed of the shaft", unit="1/min", lowest=0, highest=24000),
    ),
    result=Result(what="Slip", unit="%", lowest=-100, highest=100),
    expression="synchronous = 120 * frequency / poles\n100 * (synchronous - speed) / synchronous",
    in_words="100 × (synchronous speed − speed) ÷ synchronous speed; synchronous speed = 120 × frequency ÷ poles",
    source=Source(Basis.HANDBOOK, "Definition of slip, in any handbook of electrical machines"),
    not_for=("Synchronous, permanent-magnet and DC motors.", "Motors that are still speeding up."),
)

_TEMPERATURE_CONSTANTS = (
    Choice(234.5, "copper, as counted in the US"),
    Choice(235, "copper, as counted in IEC standards"),
    Choice(225, "aluminium"),
)

WINDING_TEMPERATURE = Formula(
    name="winding-temperature",
    title="Temperature of a winding from its resistance",
    inputs=(
        Input(name="cold-resistance", what="Resistance, cold", unit="Ω", lowest=1e-6, highest=1e6),
        Input(name="hot-resistance", what="Resistance, hot", unit="Ω", lowest=1e-6, highest=1e6),
        Input(name="cold-temperature", what="Temperature of the cold winding", unit="°C", lowest=-50, highest=100),
        Input(
            name="constant",
            what="Constant of the metal",
            unit="1",
            lowest=225,
            highest=235,
            fixed=True,
            choices=_TEMPERATURE_CONSTANTS,
        ),
    ),
    result=Result(what="Mean temperature of the winding", unit="°C", lowest=-50, highest=400),
    expression="hot_resistance / cold_resistance * (constant + cold_temperature) - constant",
    in_words="hot resistance ÷ cold resistance × (constant + cold temperature) − constant",
    source=Source(Basis.HANDBOOK, "Rise by resistance; constants 235 (copper) and 225 (aluminium), 234.5 in the US"),
    not_for=(
        "The hottest spot, which is warmer than the mean.",
        "Measurements through long cables.",
        "Resistance taken more than about a minute after the stop, unless worked back to the moment of the stop.",
    ),
)

FORMULAS = (
    VOLTAGE_UNBALANCE,
    CURRENT_UNBALANCE,
    RESISTANCE_UNBALANCE,
    INSULATION_THERMOPLASTIC,
    INSULATION_THERMOSETTING,
    POLARIZATION_INDEX,
    DISCHARGE_TIME,
    REMAINING_VOLTAGE,
    MOTOR_SLIP,
    WINDING_TEMPERATURE,
)
