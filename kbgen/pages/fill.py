"""Put the names and places of energy sources into a text: {supply}, {supply.points}, {supply.prove}."""

from __future__ import annotations

import re
from collections.abc import Mapping

from kbgen.model.placeholders import PLACEHOLDER
from kbgen.model.shared import Shared


def fill(text: str, binding: Mapping[str, str], shared: Shared) -> str:
    """Replace each placeholder by what is known of its energy source; unknown ones stay as they are."""
    if "{" not in text:
        return text

    def replacement(found: re.Match[str]) -> str:
        source = shared.energy.get(binding.get(found[1], found[1]))
        if source is None:
            return found[0]
        if found[2] == "points":
            return points_of(source.points, shared)
        return str(source.prove if found[2] == "prove" else source.name)

    return PLACEHOLDER.sub(replacement, text)


def points_of(names: tuple[str, ...], shared: Shared) -> str:
    """Isolation points with their places, in a sentence."""
    points = [shared.points[name] for name in names if name in shared.points]
    return " and ".join(f"{point.name} ({_small(point.where)})" for point in points) or "its isolation point"


def _small(words: str) -> str:
    return words[:1].lower() + words[1:] if words[1:2].islower() else words
