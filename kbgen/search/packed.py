"""Whole numbers and tables as plain text that a browser reads where it lies. packed.js reads the same.

A number is written in digits of five bits, the lowest first; the sixth bit of a character says that more follow. The
characters need no escape in JSON, so that a table is one string however many rows it has, and only rows that are asked
for are ever decoded.
"""

import bisect
from collections.abc import Iterable, Mapping, Sequence

DIGITS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz-_"
_VALUES = {digit: value for value, digit in enumerate(DIGITS)}
_MORE = 32


def pack(numbers: Iterable[int]) -> str:
    """Write numbers, none of them negative."""
    digits: list[str] = []
    for number in numbers:
        while number >= _MORE:
            digits.append(DIGITS[number % _MORE + _MORE])
            number //= _MORE
        digits.append(DIGITS[number])
    return "".join(digits)


def unpack(text: str) -> list[int]:
    """Read the numbers that `pack` wrote."""
    numbers: list[int] = []
    number, unit = 0, 1
    for digit in text:
        value = _VALUES[digit]
        number += value % _MORE * unit
        unit *= _MORE
        if value < _MORE:
            numbers.append(number)
            number, unit = 0, 1
    return numbers


def steps(ascending: Iterable[int]) -> list[int]:
    """Return the first number and how far each of the others is from the one before."""
    numbers = list(ascending)
    return [number - before for before, number in zip([0, *numbers], numbers, strict=False)]


class Table:
    """Sorted keys, each with a row of numbers. Keys hold no blank."""

    def __init__(self, packed: Mapping[str, str]) -> None:
        self.keys: list[str] = packed["keys"].split(" ") if packed["keys"] else []
        self._rows = packed["rows"].split(" ")

    def row(self, key: str) -> list[int]:
        """Return the row of a key, empty if there is none."""
        at = bisect.bisect_left(self.keys, key)
        return unpack(self._rows[at]) if self.keys[at : at + 1] == [key] else []

    def holds(self, key: str) -> bool:
        """Tell whether there is such a key."""
        at = bisect.bisect_left(self.keys, key)
        return self.keys[at : at + 1] == [key]

    def beginning_with(self, prefix: str) -> list[str]:
        """Return the keys that begin so, sorted."""
        first = bisect.bisect_left(self.keys, prefix)
        last = first
        while last < len(self.keys) and self.keys[last].startswith(prefix):
            last += 1
        return self.keys[first:last]


def packed_table(rows: Mapping[str, Sequence[int]]) -> dict[str, str]:
    """Return a table in the form that `Table` reads."""
    keys = sorted(rows)
    return {"keys": " ".join(keys), "rows": " ".join(pack(rows[key]) for key in keys)}
