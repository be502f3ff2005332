"""What the page says of the alarm stage before which a step must be done."""

from __future__ import annotations

from kbgen.analysis.spent import in_words
from kbgen.analysis.windows import allowed, stage_of, window_at
from kbgen.model.shared import Shared
from kbgen.route.route import Place

SPREAD = "A restart lets the time run again: the work may be spread over several such times, each step within one."


def window_words(place: Place, shared: Shared) -> str:
    """When the step must be done, and whether its group may be spread; empty where nothing is said of it."""
    window = window_at(place)
    known = stage_of(window, shared) if window else None
    if window is None or known is None:
        return ""
    alarm, stage = known
    time = allowed(alarm, stage)
    after = f", {in_words(time)} after the first sign" if time else ""
    words = f"Must be done before {alarm.code} turns to {stage.name.lower()}{after}."
    return f"{words} {SPREAD}" if window.repeats else words
