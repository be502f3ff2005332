"""Probabilities in words."""

from __future__ import annotations

WORDS = ((0.95, "Almost sure"), (0.8, "Very likely"), (0.5, "Likely"), (0.2, "Possible"), (0.05, "Less likely"))
UNLIKELY = "Unlikely"


def in_words(chance: float) -> str:
    """A chance in words: each holds from its bound upwards."""
    return next((word for bound, word in WORDS if chance >= bound), UNLIKELY)
