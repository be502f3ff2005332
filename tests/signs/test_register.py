"""Register against the list of referents in github lbize/iso-7010, lib.typ (Apache-2.0), copied by hand."""

import pytest

from kbgen.signs.register import Shape, codes, sign
from kbgen.signs.symbols import SYMBOLS

LBIZE_ISO_7010 = """
E003 – First aid
E011 – Eyewash station
E020 – Emergency stop button
M001 – General mandatory action sign
M002 – Refer to instruction manual/booklet
M003 – Wear ear protection
M004 – Wear eye protection
M005 – Connect an earth terminal to the ground
M006 – Disconnect mains plug from electrical outlet
M008 – Wear safety footwear
M009 – Wear protective gloves
M010 – Wear protective clothing
M013 – Wear a face shield
M014 – Wear head protection
M017 – Wear respiratory protection
M018 – Wear a safety harness
M021 – Disconnect before carrying out maintenance or repair
M027 – Check guard
M028 – Keep locked
M068 – Lock moving mechanical parts
M069 – Tools must be tethered
P003 – No open flame; Fire, open ignition source and smoking prohibited
P007 – No access for people with active implanted cardiac devices
P010 – Do not touch
P015 – No reaching in
P028 – Do not wear gloves
P031 – Do not alter the state of the switch
P069 – Not to be serviced by users
P080 – No access for unauthorized persons
W001 – General warning sign
W004 – Laser beam
W006 – Magnetic field
W008 – Drop (fall)
W010 – Low temperature/freezing conditions
W011 – Slippery surface
W012 – Electricity
W015 – Overhead load
W016 – Toxic material
W017 – Hot surface
W018 – Automatic start-up
W019 – Crushing
W021 – Flammable material
W022 – Sharp element
W023 – Corrosive substance
W024 – Crushing of hands
W025 – Counterrotating rollers
W026 – Battery charging
W027 – Optical radiation
W029 – Pressurized cylinder
W035 – Falling objects
W038 – Sudden loud noise
W041 – Asphyxiating atmosphere
W042 – Arc flash
W080 – Hot steam
W088 – Moving blades
W089 – Moving gears
"""

PUBLISHED = dict(line.split(" – ", 1) for line in LBIZE_ISO_7010.strip().splitlines())


def test_register_holds_the_published_codes() -> None:
    assert set(codes()) == set(PUBLISHED)


@pytest.mark.parametrize("code", sorted(PUBLISHED))
def test_title_is_the_published_referent(code: str) -> None:
    entry = sign(code)
    assert entry is not None
    assert (entry.code, entry.title) == (code, PUBLISHED[code])


@pytest.mark.parametrize(
    ("code", "shape"),
    [
        ("W021", Shape.WARNING),
        ("M028", Shape.MANDATORY),
        ("P010", Shape.PROHIBITION),
        ("E003", Shape.SAFE_CONDITION),
    ],
)
def test_shape_follows_the_letter(code: str, shape: Shape) -> None:
    entry = sign(code)
    assert entry is not None and entry.shape is shape


@pytest.mark.parametrize("code", ["", "w012", "W999", "W012 ", "X001"])
def test_unknown_code_has_no_entry(code: str) -> None:
    assert sign(code) is None


def test_codes_are_sorted_and_unique() -> None:
    assert list(codes()) == sorted(set(codes()))


def test_no_symbol_without_a_code() -> None:
    assert set(SYMBOLS) == set(codes())


def test_prohibited_gloves_show_what_required_gloves_show() -> None:
    assert SYMBOLS["P028"] == SYMBOLS["M009"]


def test_warnings_and_orders_have_symbols_of_their_own() -> None:
    general = {"W001", "M001"}
    for letter in "WMPE":
        paths = [SYMBOLS[code].path for code in codes() if code[0] == letter and code not in general]
        assert len(set(paths)) == len(paths)
