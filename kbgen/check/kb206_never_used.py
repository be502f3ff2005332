"""KB206: before-you-start lists what no step uses."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.diagnostics import Diagnostic, Example, Rule, Severity
from kbgen.model.values import Text

from .case import Case
from .kb205_not_in_before import used_by_steps

RULE = Rule(
    code="KB206",
    name="never-used",
    severity=Severity.WARNING,
    summary="Something is listed before the start, or declared in the procedure, but no step uses it.",
    rationale=(
        "A tool that is carried for nothing costs a walk. A hazard that no step names is worse: the warning is missing "
        "where it bites."
    ),
    remedy="Name it at the step where it is used or where it bites, or take it off the list.",
    example=Example(
        "conveyors/belt-slips.yaml",
        good="    - {tool: spanner-24}\n",
        bad="    - {tool: spanner-24}\n    - {tool: flashlight}\n",
    ),
)


def check(case: Case) -> Iterator[Diagnostic]:
    """Report listed things, temporary changes, pictures and set-ups that no step uses."""
    used = {(field, str(name)) for field, name in used_by_steps(case)} | _inside_sequences(case)
    for field, name in _declared(case):
        if name and (field, str(name)) not in used:
            yield Diagnostic(RULE, name.at, f"No step uses “{name}” from the list of {field}.", RULE.remedy)


def _inside_sequences(case: Case) -> set[tuple[str, str]]:
    used = set()
    for place in case.route.all_places:
        for field in ("tools", "parts", "consumables"):
            used |= {(field, str(name)) for name in getattr(place.step, field)}
        used |= {("hazards", name) for name in place.hazards}
        used |= {("temporary-changes", str(getattr(place.step, key, ""))) for key in ("opens", "closes")}
        used |= {("set-ups", str(name)) for name in place.step.set_up}
        used.add(("pictures", str(place.step.picture or "")))
    return used


def _declared(case: Case) -> Iterator[tuple[str, Text]]:
    before, procedure = case.procedure.before, case.procedure
    yield from (("tools", one.tool) for one in before.tools)
    yield from (("parts", one.part) for one in before.parts)
    yield from (("consumables", one.consumable) for one in before.consumables)
    yield from (("hazards", hazard) for hazard in before.hazards)
    yield from (("energy", source) for source in before.energy)
    yield from (("temporary-changes", one.id) for one in procedure.temporary_changes)
    yield from (("pictures", one.id) for one in procedure.pictures)
    yield from (("set-ups", one.id) for one in procedure.set_ups)
