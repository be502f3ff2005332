"""The word lists of the normaliser. tables.js holds the same lists; a test compares the two."""

from collections.abc import Mapping

_STOP = (
    "and are be been did does had has have is it its my of should that the their there these they this those was we "
    "were will would you your"
)
STOP: frozenset[str] = frozenset(_STOP.split())
"""Words that tell nothing and are left out. Words that turn a meaning round (no, not, off, on) are never here."""

_WEAK = (
    "a after an as at but by can do for from how i if in just may or so still then to very what when which while why "
    "with"
)
WEAK: frozenset[str] = frozenset(_WEAK.split())
"""Words that are kept ("sensor A", "CAN bus") but that an entry need not contain to answer a query in full."""

_NOT = "arent cannot cant couldnt didnt doesnt dont hasnt havent isnt shouldnt wasnt werent wont wouldnt"
NOT: frozenset[str] = frozenset(_NOT.split())
"""Contracted negations typed without an apostrophe; all of them mean "not"."""

_CHANNEL = "axis ch channel unit"
CHANNEL: frozenset[str] = frozenset(_CHANNEL.split())
"""Words before the mark of a channel, as in "E-07 axis 2"."""

_ABOUT_CODES = "again alarm code display error fault it message no nr number on panel say screen show shown the"
ABOUT_CODES: frozenset[str] = frozenset(_ABOUT_CODES.split())
"""Words, in the singular, beside which a code is still all that is asked, as in "error 07 on the display"."""

ALIKE: Mapping[str, str] = {"b": "8", "i": "1", "l": "1", "o": "0", "s": "5", "z": "2"}
"""Letters that are taken for digits, or the other way round, on paper or on a display of seven bars to a digit."""

LETTERS: Mapping[str, str] = {
    "ß": "ss",
    "æ": "ae",
    "œ": "oe",
    "ø": "o",
    "đ": "d",
    "ð": "d",
    "ł": "l",
    "ħ": "h",
    "ı": "i",
    "þ": "th",
    "ς": "σ",
}
"""Letters that no Unicode decomposition reduces to plain ones."""

SINGULAR: Mapping[str, str] = {
    "alias": "alias",
    "atlas": "atlas",
    "axes": "axis",
    "bias": "bias",
    "biases": "bias",
    "buses": "bus",
    "canvas": "canvas",
    "chaos": "chaos",
    "gases": "gas",
    "halves": "half",
    "knives": "knife",
    "lens": "lens",
    "lenses": "lens",
    "matrices": "matrix",
    "series": "series",
    "shelves": "shelf",
    "species": "species",
    "statuses": "status",
    "vertices": "vertex",
}
"""Plurals, and words that only look like plurals, which the rules of `singular` would get wrong."""

_SPELLINGS = {
    "a": "amp ampere",
    "bar": "",
    "c": "",
    "cm": "centimetre centimeter",
    "db": "decibel",
    "deg": "degree",
    "f": "",
    "g": "gram",
    "h": "hr hrs hour",
    "hz": "hertz",
    "inch": "",
    "kg": "kilogram",
    "khz": "kilohertz",
    "kohm": "kiloohm kω",
    "kpa": "kilopascal",
    "kv": "kilovolt",
    "kva": "",
    "kw": "kilowatt",
    "l": "litre liter",
    "m": "metre meter",
    "ma": "milliamp milliampere",
    "mbar": "millibar",
    "min": "minute",
    "ml": "millilitre milliliter",
    "mm": "millimetre millimeter",
    "mohm": "megohm megaohm milliohm mω",
    "mpa": "megapascal",
    "ms": "millisecond",
    "mv": "millivolt",
    "n": "newton",
    "nm": "",
    "ohm": "ω",
    "pa": "pascal",
    "percent": "",
    "psi": "",
    "rpm": "",
    "s": "sec second",
    "ua": "microamp μa",
    "uf": "microfarad μf",
    "um": "micron micrometre micrometer μm",
    "us": "microsecond μs",
    "v": "volt",
    "va": "",
    "vac": "",
    "vdc": "",
    "w": "watt",
}

UNITS: Mapping[str, str] = {
    spelling: unit for unit, others in _SPELLINGS.items() for spelling in (unit, *others.split())
}
"""Singular spelling of a unit after a number -> the one form kept. Folding case makes milli and mega ohm equal."""
