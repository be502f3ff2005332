"""Faults for the tests: a handful written out, and any number made at random."""

from __future__ import annotations

from hypothesis import strategies as st

from kbgen.narrowing.fault import Cause, Code, Fault, Look, Symptom
from kbgen.narrowing.model import Model
from kbgen.narrowing.observe import allowing_for_another, model_of

ICED = Fault(
    id="iced-up",
    title="Cooler iced up",
    times=9,
    times_counted=True,
    causes=(
        Cause("Heater dead", 3, 6, {"coil-white": 0.9, "tray-overflow": 0.1}),
        Cause("Drain blocked", 3, 6, {"tray-overflow": 0.9, "coil-white": 0.3}),
        Cause("Door leaks", 4, 8, {"coil-white": 0.7, "room-warm": 0}),
    ),
    symptoms=(
        Symptom("coil-white", "The cooler is a block of ice", ("coil frozen solid",)),
        Symptom("tray-overflow", "Water drips from the cooler"),
        Symptom("room-warm", "The room warms up"),
    ),
    codes=(Code("room-panel", "RM 31", True, "Room too warm", "Room panel"),),
    looks=(Look("room-warm", "thermometer", "1", "Does the dial agree?", 60, ("WARNING: Cold",), ("fitter",)),),
    hazards=("WARNING: Cold", "DANGER: Low oxygen"),
)
FAN = Fault(
    id="fan-stands",
    title="Fan stands",
    times=6,
    times_counted=False,
    causes=(Cause("Ice in the ring", 4, 0, {"hums": 0.7}), Cause("Bearing seized", 3, 0, None)),
    symptoms=(Symptom("hums", "The fan hums"), Symptom("warm", "The ROOM warms up.", ("rising temperature",))),
    codes=(
        Code("room-panel", "RM 31", False, "Room too warm", "Room panel"),
        Code("room-panel", "RM 51", True, "Fan tripped", "Room panel"),
    ),
    looks=(Look("warm", "feel", "2", "Is it warm?", 30),),
    not_as_it_stands=("hums",),
)
SENSOR = Fault(
    id="sensor-wrong",
    title="Temperature shown wrong",
    times=None,
    times_counted=False,
    causes=(Cause("Wet head", 1, 0, None),),
    symptoms=(Symptom("jumps", "The temperature jumps"),),
    state="draft",
)
ROOM = allowing_for_another(model_of((ICED, FAN, SENSOR)))

CHANCES = st.integers(0, 20).map(lambda number: number / 20)
NAMES = ("a", "b", "c", "d")
SECONDS = st.none() | st.integers(1, 900)


@st.composite
def causes(draw: st.DrawFn, symptoms: list[str]) -> Cause:
    shows = st.dictionaries(st.sampled_from(symptoms), CHANCES) if symptoms else st.just({})
    return Cause("cause", draw(st.integers(1, 9)), draw(st.integers(0, 30)), draw(st.none() | shows))


@st.composite
def faults(draw: st.DrawFn, number: int) -> Fault:
    symptoms = draw(st.lists(st.sampled_from(NAMES), unique=True, max_size=3))
    codes = draw(st.lists(st.sampled_from(["1", "2"]), unique=True))
    seen = draw(st.lists(st.sampled_from(symptoms), unique=True)) if symptoms else []
    return Fault(
        id=f"fault-{number}",
        title=f"Fault {number}",
        times=draw(st.none() | st.integers(1, 40)),
        times_counted=draw(st.booleans()),
        causes=tuple(draw(st.lists(causes(symptoms), min_size=1, max_size=3))),
        symptoms=tuple(Symptom(name, f"Symptom {name}") for name in symptoms),
        codes=tuple(Code("panel", code, draw(st.booleans()), "", "Panel") for code in codes),
        looks=tuple(Look(name, "step", "1", "Is it so?", draw(SECONDS)) for name in seen if draw(st.booleans())),
        not_as_it_stands=tuple(name for name in symptoms if name not in seen),
    )


@st.composite
def models(draw: st.DrawFn, at_least: int = 1) -> Model:
    count = draw(st.integers(at_least, 4))
    known = model_of([draw(faults(number)) for number in range(count)])
    return allowing_for_another(known) if draw(st.booleans()) else known


@st.composite
def asked(draw: st.DrawFn, at_least: int = 1) -> tuple[Model, dict[int, bool]]:
    """A model with some answers."""
    model = draw(models(at_least))
    places = st.sampled_from(range(len(model.observations))) if model.observations else st.nothing()
    return model, draw(st.dictionaries(places, st.booleans(), max_size=5)) if model.observations else {}


def place(model: Model, name: str) -> int:
    return next(number for number, one in enumerate(model.observations) if one.name == name)
