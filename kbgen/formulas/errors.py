"""What can go wrong when a formula is written or worked out."""

from __future__ import annotations


class ExpressionError(ValueError):
    """The text of a formula steps outside the language."""


class FormulaError(ValueError):
    """A formula cannot be worked out for the values that were given."""


class OutOfRange(FormulaError):  # noqa: N818 - it says what is the matter, as in the findings
    """A value lies outside its allowed range; ``name`` is that of the input, of the table or of the result."""

    def __init__(self, name: str, number: float, lowest: float, highest: float, unit: str = "") -> None:
        behind = "" if unit in ("", "1") else f" {unit}"
        super().__init__(f"“{name}” is {number:.7g}{behind}; allowed is {lowest:.7g} to {highest:.7g}{behind}")
        self.name = name
        self.number = number
        self.lowest = lowest
        self.highest = highest
        self.unit = unit

    def __reduce__(self) -> tuple[object, ...]:
        return (type(self), (self.name, self.number, self.lowest, self.highest, self.unit))


class Undefined(FormulaError):  # noqa: N818
    """A step of the working has no finite value, such as a division by zero."""


class NoChoice(FormulaError):  # noqa: N818
    """An input is a number that stands for nothing."""


class Conflict(FormulaError):  # noqa: N818
    """Inputs contradict each other, or a table contradicts itself."""


class UnfitUnit(FormulaError):  # noqa: N818
    """A unit is unknown, or measures something else than the formula takes or gives."""
