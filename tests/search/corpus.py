"""A small corpus of invented entries that the tests of Python and JavaScript share."""

from kbgen.search.entry import Channel, Code, Entry, Symptom

SYNONYMS: tuple[tuple[str, ...], ...] = (
    ("does not start", "will not run", "no movement", "standing still"),
    ("noise", "noisy", "humming", "grinding sound"),
    ("no power", "dead", "nothing lit"),
    ("leak", "leaking", "puddle", "drips"),
    ("too warm", "overheated", "hot"),
)

CHANNELS: tuple[Channel, ...] = (
    Channel("Drive keypad", "1", "C1: Infeed belt"),
    Channel("Drive keypad", "2", "C1: Cross belt"),
    Channel("Drive keypad", "2", "C2: Cross belt"),
    Channel("Line panel", "K3", "G2: Zone relay"),
    Channel("Cold store controller", "A", "Evaporator 3: fan on the left"),
)


def _entry(slug: str, title: str, **fields: object) -> Entry:
    given: dict[str, object] = {
        "href": f"procedures/{slug}/",
        "kind": "procedure",
        "title": title,
        "equipment": "",
        "family": "",
        "codes": (),
        "symptoms": (),
        "words": (),
        "state": "approved",
        "hazards": (),
    }
    return Entry(**{**given, **fields})  # type: ignore[arg-type]


ENTRIES: tuple[Entry, ...] = (
    _entry(
        "conveyor-drive-overload",
        "Infeed conveyor: drive trips on overload",
        equipment="Infeed conveyor C1",
        family="Belt conveyors",
        codes=(Code("E-07", "Drive keypad", "motor overload"), Code("E-08", "Drive keypad", "output phase missing")),
        symptoms=(
            Symptom("The belt does not start", ("belt standing still, drive shows a fault",)),
            Symptom("The motor is hot and hums", ()),
        ),
        words=("Seized tail bearing. Apples wedged under the belt. Brake not released. Insulation tester 500 V DC",),
        hazards=("electric shock", "drawing-in at the belt"),
    ),
    _entry(
        "grader-stop-chain",
        "Grader: emergency stop chain open",
        equipment="Grader G2",
        family="Sorting machines",
        codes=(Code("K-214/2", "Line panel", "stop chain open, zone 2"), Code("07", "Line panel", "guard door")),
        symptoms=(Symptom("Nothing lit on the operator panel", ("the grader is dead",)),),
        words=("Relay with welded contacts; gateway key switch; sensor A misaligned",),
        state="draft",
        hazards=("unexpected start",),
    ),
    _entry(
        "cold-store-fan",
        "Evaporator fan: noisy or vibrating",
        equipment="Cold store evaporator 3",
        family="Refrigeration",
        codes=(Code("F12b", "Cold store controller", "fan speed feedback lost"),),
        symptoms=(
            Symptom("Fan makes a grinding sound", ("noise from the cold store ceiling",)),
            Symptom("Ice on the fan guards", ()),
        ),
        words=("Worn fan bearings, blade out of balance, -18 °C set point",),
        hazards=("rotating blades", "ammonia"),
    ),
    _entry(
        "compressor-discharge",
        "Compressor: high discharge temperature",
        equipment="Screw compressor K1",
        family="Refrigeration",
        codes=(
            Code("AL 101", "Compressor panel", "discharge temperature above 95 °C"),
            Code("E.02#2", "Unit 2", "oil"),
        ),
        symptoms=(Symptom("Oil puddle under the compressor", ("it drips at the shaft seal",)),),
        words=("Lubricant level low\nCooler fouled\nTemperature transmitter 4-20 mA",),
        hazards=("burns", "ammonia"),
    ),
    _entry(
        "dock-leveller-sinks",
        "Dock leveller sinks under load",
        equipment="Dock leveller D4",
        family="Hydraulics",
        symptoms=(Symptom("The platform sinks when a forklift drives on", ("lip won't stay up",)),),
        words=("Check valve leaking. Hydraulic hose chafed. Façade light. " + "Wiper ring and piston seal worn. " * 6,),
        hazards=("crushing",),
    ),
    _entry(
        "charger-no-output",
        "Forklift battery charger: no output",
        equipment="Battery charger B1",
        family="Chargers",
        codes=(Code("E-0070", "Charger display", "battery not detected"), Code("HH", "Charger display", "too warm")),
        symptoms=(Symptom("No signal from the battery sensor", ("24 V supply missing",)),),
        words=("Fuses F1 and F2, shunt 0.5 mΩ, charging cable <script>alert(1)</script>",),
        hazards=("explosive gas",),
    ),
    _entry(
        "hydraulic-seal-kit",
        "Seal kit for dock leveller cylinder",
        kind="part",
        equipment="Dock leveller D4",
        family="Hydraulics",
        codes=(Code("HC-4410-07", "", "Seal kit"),),
    ),
    _entry(
        "packing-panel",
        "Packing table: panel dark",
        equipment="Packing table P1",
        family="Packing",
        codes=(Code("B0I5", "Packing panel", "no supply"), Code("07", "Packing panel", "guard door of the table")),
    ),
)
