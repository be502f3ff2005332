"""Numbers as they are printed."""

from __future__ import annotations

PLAIN_NUMBER = "1"
_RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


def figure(number: float) -> str:
    """A number with a true minus and commas, and with tens to a power where it is very large or very small."""
    magnitude = abs(number)
    if magnitude >= 1e10 or 0 < magnitude < 1e-3:
        digits, power = f"{number:.6e}".split("e")
        factor = "" if float(digits) == 1 else f"{float(digits):g} × "
        return f"{factor}10{str(int(power)).translate(_RAISED)}".replace("-", "−")
    return f"{number:,.10g}".replace("-", "−")
