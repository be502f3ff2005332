"""Procedure and route -> digest."""

from __future__ import annotations

from collections.abc import Iterator

from kbgen.analysis.digest import CodeShown, Digest, SymptomSaid, UsedAt
from kbgen.analysis.figures import figures_of
from kbgen.analysis.usage import Use, uses
from kbgen.model.decode import Decoded
from kbgen.model.procedure import Procedure
from kbgen.model.shared import Shared
from kbgen.model.steps import Finish
from kbgen.model.values import Text
from kbgen.prose import links, plain
from kbgen.route.route import Route

_PROCEDURE_LINK = "procedure:"


def digest_of(path: str, decoded: Decoded[Procedure], route: Route, shared: Shared) -> Digest:
    """Gather what other pages, the search and the checks of the whole need to know of a procedure."""
    procedure = decoded.record
    family = shared.families.get(procedure.applies.family)
    return Digest(
        id=str(procedure.id),
        named=procedure.id,
        path=path,
        title=str(procedure.title),
        summary=plain(procedure.summary),
        revision=procedure.revision,
        state=procedure.state.value,
        review_last=procedure.review.last,
        review_due=procedure.review.every.after(procedure.review.last),
        review_at=procedure.review.at,
        family=str(procedure.applies.family),
        equipment=_equipment(procedure, str(family.name) if family else str(procedure.applies.family), shared),
        symptoms=tuple(SymptomSaid(str(one.text), tuple(map(str, one.also))) for one in procedure.symptoms),
        codes=tuple(CodeShown(str(one.display), str(one.code), one.code.at) for one in procedure.alarms),
        causes=tuple(str(cause.text) for cause in procedure.causes),
        figures=figures_of(procedure, route),
        hazards=tuple(map(str, procedure.before.hazards)),
        tools=_used(uses(route, lambda place: place.step.tools)),
        parts=_used(uses(route, lambda place: (*place.step.parts, *getattr(place.step, "orders", ())))),
        consumables=tuple(str(one.consumable) for one in procedure.before.consumables),
        links=tuple(_links(decoded)),
        anchors=tuple(place.key for place in route.all_places),
    )


def _equipment(procedure: Procedure, family: str, shared: Shared) -> str:
    variants = shared.variants_of(procedure.applies.family)
    names = [str(variants[name].name) for name in procedure.applies.variants if name in variants]
    return f"{family}: {', '.join(names)}" if names else family


def _used(used: tuple[Use, ...]) -> tuple[UsedAt, ...]:
    return tuple(UsedAt(one.name, one.always, one.branches) for one in used)


def _links(decoded: Decoded[Procedure]) -> Iterator[Text]:
    procedure = decoded.record
    yield from procedure.related
    if procedure.replaced_by:
        yield procedure.replaced_by
    for group in procedure.steps:
        for step in group.steps:
            if isinstance(step, Finish) and step.procedure:
                yield step.procedure
    for prose in decoded.prose:
        for link in links(prose):
            if link.target.startswith(_PROCEDURE_LINK):
                yield Text.of(link.target.removeprefix(_PROCEDURE_LINK), prose.at)
