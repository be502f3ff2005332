"""Formulas of sensors and signals: resistance thermometers, thermocouples, the 4–20 mA loop."""

from __future__ import annotations

from kbgen.formulas.formula import Basis, Choice, Formula, Input, Requirement, Result, Source

# IEC 60751 (Callendar and Van Dusen): the resistance at t °C; below zero the last term comes in.
_PT100 = """100 * (
    polynomial({t}, [1, 3.9083e-3, -5.775e-7])
    + (-4.183e-12 * ({t} - 100) * {t} ** 3 if {t} < 0 else 0)
)"""

# ITS-90 reference function of type K (NIST Monograph 175): the voltage in mV at t °C, other junction at 0 °C.
_TYPE_K = """(
    polynomial({t}, [0, 0.039450128025, 2.3622373598e-5, -3.2858906784e-7, -4.9904828777e-9, -6.7509059173e-11,
        -5.7410327428e-13, -3.1088872894e-15, -1.0451609365e-17, -1.9889266878e-20, -1.6322697486e-23])
    if {t} < 0 else
    polynomial({t}, [-0.017600413686, 0.038921204975, 1.8558770032e-5, -9.9457592874e-8, 3.1840945719e-10,
        -5.6072844889e-13, 5.6075059059e-16, -3.2020720003e-19, 9.7151147152e-23, -1.2104721275e-26])
    + 0.1185976 * exp(-1.183432e-4 * ({t} - 126.9686) ** 2)
)"""

_IEC_60751 = Source(
    Basis.STANDARD, "IEC 60751: A = 3.9083e-3, B = −5.775e-7, C = −4.183e-12, as quoted by a public calculator"
)
_ITS_90 = Source(Basis.STANDARD, "ITS-90 reference function of type K, NIST Monograph 175 (its90.nist.gov)")
_NOT_PT100 = (
    "Sensors with another resistance at 0 °C, such as Pt1000.",
    "Sensors with another curve, such as the older American 3.926e-3.",
    "A two-wire reading from which the wires' resistance has not been taken off.",
)
_NOT_K = (
    "Other types, such as J or N.",
    "A meter with cold-junction compensation of its own, which shows the temperature already.",
    "Voltages picked up with copper wires, unless the cold junction is where copper begins.",
)
_COLD_JUNCTION = Input(
    name="cold-junction", what="Temperature of the cold junction", unit="°C", lowest=-40, highest=100
)

PT100_TEMPERATURE = Formula(
    name="pt100-temperature",
    title="Temperature of a Pt100 sensor",
    inputs=(Input(name="resistance", what="Resistance of the sensor", unit="Ω", lowest=18.52, highest=390.49),),
    result=Result(what="Temperature", unit="°C", lowest=-201, highest=851),
    expression=f"root(temperature, -201, 851, {_PT100.format(t='temperature')} - resistance)",
    in_words="the temperature at which the curve of IEC 60751 has this resistance",
    source=_IEC_60751,
    not_for=_NOT_PT100,
)

PT100_RESISTANCE = Formula(
    name="pt100-resistance",
    title="Resistance of a Pt100 sensor",
    inputs=(Input(name="temperature", what="Temperature of the sensor", unit="°C", lowest=-200, highest=850),),
    result=Result(what="Resistance", unit="Ω", lowest=18.52, highest=390.49),
    expression=_PT100.format(t="temperature"),
    in_words="100 × (1 + A·t + B·t²), and below 0 °C 100 × (1 + A·t + B·t² + C·(t − 100)·t³)",
    source=_IEC_60751,
    not_for=_NOT_PT100,
)

K_TEMPERATURE = Formula(
    name="thermocouple-k-temperature",
    title="Temperature of a type K thermocouple",
    inputs=(
        Input(name="voltage", what="Voltage of the thermocouple", unit="mV", lowest=-10, highest=60),
        _COLD_JUNCTION,
    ),
    result=Result(what="Temperature", unit="°C", lowest=-200, highest=1372),
    expression=(
        f"whole = voltage + {_TYPE_K.format(t='cold_junction')}\n"
        f"root(temperature, -210, 1380, {_TYPE_K.format(t='temperature')} - whole)"
    ),
    in_words="the temperature whose voltage is the measured one plus that of the cold junction",
    source=_ITS_90,
    not_for=_NOT_K,
)

K_VOLTAGE = Formula(
    name="thermocouple-k-voltage",
    title="Voltage of a type K thermocouple",
    inputs=(
        Input(name="temperature", what="Temperature to measure", unit="°C", lowest=-200, highest=1372),
        _COLD_JUNCTION,
    ),
    result=Result(what="Voltage", unit="mV", lowest=-10, highest=60),
    expression=f"{_TYPE_K.format(t='temperature')} - {_TYPE_K.format(t='cold_junction')}",
    in_words="voltage of the temperature − voltage of the cold junction, both against 0 °C",
    source=_ITS_90,
    not_for=_NOT_K,
)

_AT_4 = Input(name="at-4-ma", what="Value at 4 mA", unit=None, lowest=-1e9, highest=1e9, fixed=True)
_AT_20 = Input(name="at-20-ma", what="Value at 20 mA", unit=None, lowest=-1e9, highest=1e9, fixed=True)
_SPAN = Requirement("at_4_ma < at_20_ma or at_4_ma > at_20_ma", "the values at 4 mA and at 20 mA differ")
_NOT_LOOP = (
    "Signals that start at 0 mA.",
    "Transmitters with a square root or another curve in them.",
)
_LOOP = Source(
    Basis.DEFINITION, "The live-zero signal 4–20 mA; limits of a valid signal after NAMUR NE 43, as quoted publicly"
)

LOOP_VALUE = Formula(
    name="loop-value",
    title="Value of a 4–20 mA signal",
    inputs=(
        Input(name="current", what="Current in the loop", unit="mA", lowest=3.8, highest=20.5),
        _AT_4,
        _AT_20,
    ),
    result=Result(what="Value", unit=None, lowest=-3e9, highest=3e9),
    expression="at_4_ma + (at_20_ma - at_4_ma) * (current - 4) / 16",
    in_words="value at 4 mA + (value at 20 mA − value at 4 mA) × (current − 4 mA) ÷ 16 mA",
    source=_LOOP,
    not_for=("A current outside 3.8 to 20.5 mA: it carries no measured value.", *_NOT_LOOP),
    requires=(_SPAN,),
)

LOOP_CURRENT = Formula(
    name="loop-current",
    title="Current of a 4–20 mA signal",
    inputs=(Input(name="value", what="Measured value", unit=None, lowest=-3e9, highest=3e9), _AT_4, _AT_20),
    result=Result(what="Current", unit="mA", lowest=3.8, highest=20.5),
    expression="4 + 16 * (value - at_4_ma) / (at_20_ma - at_4_ma)",
    in_words="4 mA + 16 mA × (value − value at 4 mA) ÷ (value at 20 mA − value at 4 mA)",
    source=_LOOP,
    not_for=("A value so far outside the span that no transmitter signals it.", *_NOT_LOOP),
    requires=(_SPAN,),
)

LOOP_CLASS = Formula(
    name="loop-current-class",
    title="What a current of a 4–20 mA loop means",
    inputs=(Input(name="current", what="Current in the loop", unit="mA", lowest=0, highest=50),),
    result=Result(
        what="Class",
        unit="1",
        lowest=1,
        highest=5,
        classes=(
            Choice(1, "failure signal, low (up to 3.6 mA)"),
            Choice(2, "undefined (above 3.6, below 3.8 mA)"),
            Choice(3, "measured value (3.8 to 20.5 mA)"),
            Choice(4, "undefined (above 20.5, below 21 mA)"),
            Choice(5, "failure signal, high (21 mA and more)"),
        ),
    ),
    expression=("1 if current <= 3.6 else 2 if current < 3.8 else 3 if current <= 20.5 else 4 if current < 21 else 5"),
    in_words="compare the current with 3.6, 3.8, 20.5 and 21 mA",
    source=Source(Basis.STANDARD, "NAMUR NE 43, as quoted publicly; to which side the limits belong", from_memory=True),
    not_for=("Loops whose devices are not set to NE 43.", "Digital values that only pass through the loop."),
)

FORMULAS = (
    PT100_TEMPERATURE,
    PT100_RESISTANCE,
    K_TEMPERATURE,
    K_VOLTAGE,
    LOOP_VALUE,
    LOOP_CURRENT,
    LOOP_CLASS,
)
