"""All formulas, in one explicit list."""

from __future__ import annotations

from collections.abc import Mapping

from kbgen.formulas import electrical, mechanical, sensors, thermal
from kbgen.formulas.formula import Formula

FORMULAS: Mapping[str, Formula] = {
    one.name: one
    for one in sorted(
        (*electrical.FORMULAS, *sensors.FORMULAS, *mechanical.FORMULAS, *thermal.FORMULAS),
        key=lambda one: one.name,
    )
}
