"""KB208: the code of a safety sign is not in the register."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.values import Text
from kbgen.model.words import Signal
from kbgen.signs.register import codes, sign

from .case import TablesCase
from .near import did_you_mean

RULE = Rule(
    code="KB208",
    name="unknown-sign",
    severity=Severity.ERROR,
    summary="A hazard or a piece of protective equipment names a sign that is not in the register of ISO 7010 codes.",
    rationale="Lists of signs copied from the web are often wrong; a wrong sign warns of the wrong danger.",
    remedy="Look the code up in the standard: W for warnings, M for mandatory action; a notice may carry either.",
    example=Example("tables/conveyors.yaml", good="    sign: W012\n", bad="    sign: W912\n"),
)


def check(case: TablesCase) -> Iterator[Diagnostic]:
    """Report sign codes that are not in the register, or are of the wrong category."""
    for hazard in case.shared.hazards.values():
        if hazard.signal is Signal.NOTICE and hazard.sign.startswith("M"):
            yield from _sign(hazard.sign, "M", "a mandatory sign")
        else:
            yield from _sign(hazard.sign, "W", "a warning sign")
    for equipment in case.shared.ppe.values():
        yield from _sign(equipment.sign, "M", "a mandatory sign")


def _sign(code: Text, category: str, what: str) -> Iterator[Diagnostic]:
    if code and sign(code) is None:
        known = [one for one in codes() if one.startswith(category)]
        yield Diagnostic(
            RULE, code.at, f"The sign “{code}” is not in the register.", did_you_mean(code, known, RULE.remedy)
        )
    elif code and not code.startswith(category):
        yield Diagnostic(RULE, code.at, f"The sign “{code}” is not {what}.", RULE.remedy)
