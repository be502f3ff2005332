"""KB205: a step uses what before-you-start does not list."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.values import Text

from .case import Case

RULE = Rule(
    code="KB205",
    name="not-in-before",
    severity=Severity.ERROR,
    summary=(
        "A step uses a tool, part, consumable, hazard, energy source or protective equipment that is not listed before "
        "the start."
    ),
    rationale=(
        "The technician reads before-you-start in the workshop. What is missing there is missing at the machine, and a "
        "hazard that first shows up at step nine comes too late."
    ),
    remedy="Add it to the list under before.",
    example=Example("conveyors/belt-slips.yaml", good="    - {tool: spanner-24}\n", bad=""),
)

_FIELDS = ("tools", "parts", "consumables", "ppe", "hazards", "energy")


def check(case: Case) -> Iterator[Diagnostic]:
    """Report what steps use but before-you-start does not list; what a shared sequence uses is listed by itself."""
    listed = listed_before(case)
    for field, name in used_by_steps(case):
        if name and name not in listed[field]:
            what = field.removesuffix("s") if field != "ppe" else "protective equipment"
            message = f"A step uses the {what} “{name}”, but before: {field} does not list it."
            yield Diagnostic(RULE, name.at, message, f"Add “{name}” to before: {field}.")


def listed_before(case: Case) -> dict[str, set[str]]:
    """The names under each list of before-you-start."""
    before = case.procedure.before
    return {
        "tools": {str(one.tool) for one in before.tools},
        "parts": {str(one.part) for one in before.parts},
        "consumables": {str(one.consumable) for one in before.consumables},
        "ppe": set(map(str, before.ppe)),
        "hazards": set(map(str, before.hazards)),
        "energy": set(map(str, before.energy)),
    }


def used_by_steps(case: Case) -> Iterator[tuple[str, Text]]:
    """Every name that the steps and groups of the procedure itself use, with the list it belongs to."""
    for group in case.procedure.steps:
        yield from (("hazards", hazard) for hazard in group.hazards)
        yield from (("energy", source) for source in group.energy or ())
    for place in case.route.places.values():
        step = place.step
        for field in ("tools", "parts", "consumables", "ppe", "hazards"):
            yield from ((field, name) for name in getattr(step, field))
        yield from (("energy", source) for source in step.energy or ())
        source = getattr(step, "source", None)
        if isinstance(source, Text):
            yield "energy", source
        yield from (("energy", bound) for bound in (getattr(step, "with_", None) or {}).values())
        yield from (("parts", part) for part in getattr(step, "orders", ()))
