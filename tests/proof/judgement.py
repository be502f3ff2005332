"""The judge and the rules side by side: what of the dangers is caught, and by what."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from kbgen.diagnostics import Diagnostic
from tests.proof.bases import base
from tests.proof.danger import Danger, Kind
from tests.proof.mutants import Mutant
from tests.proof.simulator import dangers
from tests.proof.verdict import errors

CAUGHT, MISSED, FALSE_ALARM, UNSEEN = VERDICTS = ("caught", "missed", "false alarm", "unseen")

# Which rules may report a danger.
FITTING: Mapping[Kind, tuple[str, ...]] = {
    Kind.UNPROVED_REACH: ("KB501", "KB502"),
    Kind.LOCK_ON_CLOSED: ("KB503",),
    Kind.UNDER_LOAD: ("KB503",),
    Kind.EARLY_PROOF: ("KB503",),
    Kind.UNREADY_RESTART: ("KB504",),
    Kind.GUARD_OFF_RESTART: ("KB504",),
    Kind.UNFIT_PROOF: ("KB505", "KB701"),
    Kind.SHORT_WAIT: ("KB506",),
    Kind.LEFT_HELD: ("KB509",),
    Kind.LEFT_CHANGED: ("KB601",),
    Kind.CHANGE_OUT_OF_TURN: ("KB602",),
    Kind.UNCHECKED_SWAP: ("KB603", "KB201"),
    Kind.NEED_NOT_MET: ("KB501",),
    Kind.UNREADABLE: ("KB307", "KB701", "KB702"),
    Kind.STUCK: ("KB302", "KB303", "KB201", "KB207"),
    Kind.ENDLESS: ("KB303",),
    Kind.NEVER_REACHED: ("KB301",),
    Kind.NO_WAY_OUT: (),
    Kind.TOO_LATE: ("KB801",),
    Kind.BARE_LIVE_WORK: ("KB508",),
}
# A key that is missing, a list too short, a value that does not fit: such a file is refused before any other rule.
REFUSED = frozenset({"KB105", "KB106", "KB107"})


@dataclass(frozen=True)
class Judged:
    """A mutant, the dangers that its defect brings, and the errors that kbgen reports."""

    mutant: Mutant
    dangers: tuple[Danger, ...]
    errors: tuple[Diagnostic, ...]

    @property
    def codes(self) -> tuple[str, ...]:
        """The codes of the errors, each once."""
        return tuple(sorted({one.rule.code for one in self.errors}))

    @property
    def fitting(self) -> tuple[Diagnostic, ...]:
        """The errors that speak of one of the dangers."""
        wanted = {code for danger in self.dangers for code in FITTING[danger.kind]} | REFUSED
        return tuple(one for one in self.errors if one.rule.code in wanted)

    @property
    def verdict(self) -> str:
        """A danger is caught or missed; without danger an error is a false alarm, and silence is silence."""
        if self.dangers:
            return CAUGHT if self.fitting else MISSED
        return FALSE_ALARM if self.errors else UNSEEN


def judge(mutant: Mutant) -> Judged:
    """Let the judge and the rules look at a mutant."""
    known = clean_dangers(mutant.base.root, mutant.file)
    found = dangers(mutant.procedure, mutant.tables)
    return Judged(mutant, tuple(one for one in found if one.identity not in known), tuple(errors(mutant)))


@cache
def clean_dangers(root: Path, file: str) -> frozenset[tuple[Kind, str, str]]:
    """The dangers of a procedure as it is."""
    clean = base(root)
    return frozenset(one.identity for one in dangers(clean.procedures[file], clean.tables))
