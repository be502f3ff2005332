"""The ISO 7010 codes that a procedure may name, each with its referent in words.

Titles: list of referents in lib.typ of the public repository lbize/iso-7010 (Apache-2.0).
The drawings made from this register follow the style of ISO 3864; they are not the signs of ISO 7010.
"""

from dataclasses import dataclass
from enum import Enum

from kbgen.signs.symbols import SYMBOLS, Symbol


class Shape(Enum):
    """Outline and colour of a sign; the value is the first letter of the code."""

    WARNING = "W"
    MANDATORY = "M"
    PROHIBITION = "P"
    SAFE_CONDITION = "E"


@dataclass(frozen=True)
class Sign:
    """A register entry; `title` is what a page prints beside the drawing."""

    code: str
    title: str
    shape: Shape
    symbol: Symbol


_TITLES: tuple[tuple[str, str], ...] = (
    ("E003", "First aid"),
    ("E011", "Eyewash station"),
    ("E020", "Emergency stop button"),
    ("M001", "General mandatory action sign"),
    ("M002", "Refer to instruction manual/booklet"),
    ("M003", "Wear ear protection"),
    ("M004", "Wear eye protection"),
    ("M005", "Connect an earth terminal to the ground"),
    ("M006", "Disconnect mains plug from electrical outlet"),
    ("M008", "Wear safety footwear"),
    ("M009", "Wear protective gloves"),
    ("M010", "Wear protective clothing"),
    ("M013", "Wear a face shield"),
    ("M014", "Wear head protection"),
    ("M017", "Wear respiratory protection"),
    ("M018", "Wear a safety harness"),
    ("M021", "Disconnect before carrying out maintenance or repair"),
    ("M027", "Check guard"),
    ("M028", "Keep locked"),
    ("M068", "Lock moving mechanical parts"),
    ("M069", "Tools must be tethered"),
    ("P003", "No open flame; Fire, open ignition source and smoking prohibited"),
    ("P007", "No access for people with active implanted cardiac devices"),
    ("P010", "Do not touch"),
    ("P015", "No reaching in"),
    ("P028", "Do not wear gloves"),
    ("P031", "Do not alter the state of the switch"),
    ("P069", "Not to be serviced by users"),
    ("P080", "No access for unauthorized persons"),
    ("W001", "General warning sign"),
    ("W004", "Laser beam"),
    ("W006", "Magnetic field"),
    ("W008", "Drop (fall)"),
    ("W010", "Low temperature/freezing conditions"),
    ("W011", "Slippery surface"),
    ("W012", "Electricity"),
    ("W015", "Overhead load"),
    ("W016", "Toxic material"),
    ("W017", "Hot surface"),
    ("W018", "Automatic start-up"),
    ("W019", "Crushing"),
    ("W021", "Flammable material"),
    ("W022", "Sharp element"),
    ("W023", "Corrosive substance"),
    ("W024", "Crushing of hands"),
    ("W025", "Counterrotating rollers"),
    ("W026", "Battery charging"),
    ("W027", "Optical radiation"),
    ("W029", "Pressurized cylinder"),
    ("W035", "Falling objects"),
    ("W038", "Sudden loud noise"),
    ("W041", "Asphyxiating atmosphere"),
    ("W042", "Arc flash"),
    ("W080", "Hot steam"),
    ("W088", "Moving blades"),
    ("W089", "Moving gears"),
)

_SIGNS: dict[str, Sign] = {code: Sign(code, title, Shape(code[0]), SYMBOLS[code]) for code, title in _TITLES}


def sign(code: str) -> Sign | None:
    """The entry of `code` (written as in "W012"), or None where the register has none."""
    return _SIGNS.get(code)


def codes() -> tuple[str, ...]:
    """All codes of the register, sorted."""
    return tuple(sorted(_SIGNS))
