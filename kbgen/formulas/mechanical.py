"""Formulas of the mechanical trades: pumps and fans, cylinders, screws, belts, vibration."""

from __future__ import annotations

from kbgen.formulas.formula import Basis, Choice, Formula, Input, Requirement, Result, Source, variable

_FROM = Input(name="old-speed", what="Speed at which it was known", unit="1/min", lowest=1, highest=1e5)
_TO = Input(name="new-speed", what="Speed to which it is worked out", unit="1/min", lowest=0, highest=1e5)
_AFFINITY = Source(Basis.HANDBOOK, "Affinity laws of centrifugal pumps and fans, as in the DOE Fundamentals Handbook")
_NOT_AFFINITY = (
    "Positive-displacement pumps and compressors.",
    "A change of the impeller, or of anything else but the speed.",
    "Systems with much static head, in which the pump meets another load at another speed.",
)


def _affinity(name: str, title: str, known: Input, power: int) -> Formula:
    ratio = "(new_speed / old_speed)" + (f" ** {power}" if power > 1 else "")
    times = {1: "", 2: ", squared", 3: ", to the power of three"}[power]
    return Formula(
        name=name,
        title=title,
        inputs=(known, _FROM, _TO),
        result=Result(what=f"{known.what} at the new speed", unit=known.unit, lowest=0, highest=1e21),
        expression=f"{variable(known.name)} * {ratio}",
        in_words=f"{known.what.lower()} × (new speed ÷ old speed){times}",
        source=_AFFINITY,
        not_for=_NOT_AFFINITY,
    )


AFFINITY_FLOW = _affinity(
    "affinity-flow",
    "Flow at another speed",
    Input(name="flow", what="Flow", unit="m³/h", lowest=0, highest=1e6),
    1,
)
AFFINITY_HEAD = _affinity(
    "affinity-head",
    "Head at another speed",
    Input(name="head", what="Head", unit="m", lowest=0, highest=1e4),
    2,
)
AFFINITY_POWER = _affinity(
    "affinity-power",
    "Power at another speed",
    Input(name="power", what="Power", unit="kW", lowest=0, highest=1e6),
    3,
)

_PRESSURE = Input(
    name="pressure", what="Pressure at the cylinder, above that around", unit="bar", lowest=0, highest=1e3
)
_BORE = Input(name="bore", what="Bore of the cylinder", unit="mm", lowest=1, highest=2000, fixed=True)
_FORCE = Result(what="Force without friction", unit="N", lowest=0, highest=4e8)
_CYLINDER = Source(Basis.DEFINITION, "Force = pressure × area")
_NOT_CYLINDER = (
    "Pressure that is left on the other side of the piston.",
    "Friction and acceleration, which take part of the force.",
)

CYLINDER_PUSH = Formula(
    name="cylinder-push",
    title="Force of a cylinder that pushes",
    inputs=(_PRESSURE, _BORE),
    result=_FORCE,
    expression="pressure * 1e5 * pi / 4 * (bore / 1000) ** 2",
    in_words="pressure × π ÷ 4 × bore²",
    source=_CYLINDER,
    not_for=_NOT_CYLINDER,
)

CYLINDER_PULL = Formula(
    name="cylinder-pull",
    title="Force of a cylinder that pulls",
    inputs=(
        _PRESSURE,
        _BORE,
        Input(name="rod", what="Diameter of the rod", unit="mm", lowest=0, highest=2000, fixed=True),
    ),
    result=_FORCE,
    expression="pressure * 1e5 * pi / 4 * ((bore / 1000) ** 2 - (rod / 1000) ** 2)",
    in_words="pressure × π ÷ 4 × (bore² − rod²)",
    source=_CYLINDER,
    not_for=_NOT_CYLINDER,
    requires=(Requirement("rod < bore", "the rod is thinner than the bore"),),
)

BOLT_TORQUE = Formula(
    name="bolt-torque",
    title="Tightening torque of a bolt",
    inputs=(
        Input(name="nut-factor", what="Nut factor K", unit="1", lowest=0.05, highest=0.5, fixed=True),
        Input(name="preload", what="Preload to reach", unit="kN", lowest=0, highest=1e4),
        Input(name="diameter", what="Nominal diameter of the thread", unit="mm", lowest=1, highest=200, fixed=True),
    ),
    result=Result(what="Torque", unit="N·m", lowest=0, highest=1e6),
    expression="nut_factor * preload * diameter",
    in_words="nut factor × preload × nominal diameter",
    source=Source(Basis.HANDBOOK, "T = K · F · d, in any handbook of bolted joints"),
    not_for=(
        "Joints for which the maker states a torque.",
        "An unknown state of lubrication: the nut factor may be off by a third.",
        "Tightening by angle, by elongation or into the plastic range.",
    ),
)

BELT_DEFLECTION = Formula(
    name="belt-deflection",
    title="Deflection of a belt at its tensioning force",
    inputs=(Input(name="span", what="Free span between the pulleys", unit="mm", lowest=10, highest=20000),),
    result=Result(what="Deflection in the middle of the span", unit="mm", lowest=0, highest=400),
    expression="span / 64",
    in_words="span ÷ 64, pressed in with the force that the belt's maker states",
    source=Source(Basis.PRACTICE, "1/64 of the span, in public tables of belt makers"),
    not_for=("Flat conveyor belts.", "Toothed belts whose maker states a frequency or another deflection."),
)

_VIBRATION_ZONES = (
    Choice(1, "zone A, as of a new machine"),
    Choice(2, "zone B, fit for long operation"),
    Choice(3, "zone C, not fit for long operation"),
    Choice(4, "zone D, harmful"),
)

VIBRATION_ZONE = Formula(
    name="vibration-zone",
    title="Vibration zone of a machine",
    inputs=(
        Input(name="velocity", what="Vibration velocity at the bearing, rms", unit="mm/s", lowest=0, highest=200),
        Input(
            name="group",
            what="Machine group",
            unit="1",
            lowest=1,
            highest=2,
            fixed=True,
            choices=(
                Choice(1, "above 300 kW, or shaft height 315 mm and more"),
                Choice(2, "15 to 300 kW, or shaft height 160 to 315 mm"),
            ),
        ),
        Input(
            name="support",
            what="Support",
            unit="1",
            lowest=1,
            highest=2,
            fixed=True,
            choices=(Choice(1, "rigid"), Choice(2, "flexible")),
        ),
    ),
    result=Result(what="Zone", unit="1", lowest=1, highest=4, classes=_VIBRATION_ZONES),
    expression="""\
a = 2.3 if group == 1 and support == 1 else 3.5 if group == 1 else 1.4 if support == 1 else 2.3
b = 4.5 if group == 1 and support == 1 else 7.1 if group == 1 else 2.8 if support == 1 else 4.5
c = 7.1 if group == 1 and support == 1 else 11 if group == 1 else 4.5 if support == 1 else 7.1
1 if velocity < a else 2 if velocity < b else 3 if velocity < c else 4""",
    in_words=(
        "compare the velocity with the limits between the zones, in mm/s: group 1 rigid 2.3, 4.5, 7.1; group 1 "
        "flexible 3.5, 7.1, 11; group 2 rigid 1.4, 2.8, 4.5; group 2 flexible 2.3, 4.5, 7.1; a value on a limit "
        "counts to the worse zone"
    ),
    source=Source(
        Basis.STANDARD,
        "ISO 10816-3, followed by ISO 20816-3, as quoted publicly; that a value on a limit counts as worse is kbgen's "
        "own rule",
    ),
    not_for=(
        "Pumps, which have had ISO 10816-7 of their own since 2009.",
        "Machines below 15 kW, reciprocating machines, and speeds outside 120 to 15,000 1/min.",
        "Vibration of the shaft, and peak values.",
    ),
)

FORMULAS = (
    AFFINITY_FLOW,
    AFFINITY_HEAD,
    AFFINITY_POWER,
    CYLINDER_PUSH,
    CYLINDER_PULL,
    BOLT_TORQUE,
    BELT_DEFLECTION,
    VIBRATION_ZONE,
)
