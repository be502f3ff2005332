"""The sentence that a step is about."""

from __future__ import annotations

from kbgen.model.shared import Shared
from kbgen.model.steps import Run, Step, Wait


def main_text(step: Step, shared: Shared) -> str:
    """What the step says first, as its author wrote it."""
    if isinstance(step, Run):
        sequence = shared.sequences.get(step.run)
        return str(sequence.title) if sequence else str(step.run)
    if isinstance(step, Wait):
        return f"Wait {step.wait}. {step.for_}"
    return str(getattr(step, step.starts_with.replace("-", "_")))
