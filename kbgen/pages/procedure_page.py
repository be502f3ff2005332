"""The page of a procedure."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from kbgen.analysis.energy import energy_states, follow
from kbgen.analysis.usage import Use, uses
from kbgen.draw.layout import layout
from kbgen.draw.svg import svg
from kbgen.draw.text_alternative import outline
from kbgen.model.procedure import Procedure
from kbgen.model.shared import Shared
from kbgen.model.tables import Alarm, Display
from kbgen.pages import addresses, snippets, wording
from kbgen.pages.charts import chart_of
from kbgen.pages.fill import fill
from kbgen.pages.hand_over import hand_over
from kbgen.pages.hazards import hazard_views
from kbgen.pages.page import Page
from kbgen.pages.picture_views import PictureFile, picture_views
from kbgen.pages.step_views import StepContext, StepView, StepViews
from kbgen.pages.stored_energy import stored_words
from kbgen.pages.templates import render
from kbgen.pages.time_table import time_table
from kbgen.pages.window_words import window_words
from kbgen.prose import render as render_blocks
from kbgen.prose import render_inline
from kbgen.route.route import Place, Route
from kbgen.route.unfold import unfold
from kbgen.signs.register import sign
from kbgen.signs.svg import symbol_sheet, use


@dataclass(frozen=True)
class GroupView:
    """A group of steps."""

    title: str
    steps: tuple[StepView, ...]


@dataclass(frozen=True)
class NeedView:
    """A tool, part or consumable: what it is, whether it is always needed, and otherwise when."""

    record: object
    anchor: str
    always: bool
    branches: tuple[str, ...]
    remark: Markup
    amount: str


@dataclass(frozen=True)
class AlarmView:
    """A code of the procedure, with what its display's alarm list says of it."""

    display: Display
    alarm: Alarm
    raised: str
    note: Markup


ROOT = "../"


def procedure_page(
    procedure: Procedure,
    route: Route,
    shared: Shared,
    titles: Mapping[str, str],
    read_picture: Callable[[str], bytes],
) -> tuple[Page, tuple[PictureFile, ...]]:
    """Render a procedure; ``titles`` gives the titles of the procedures that it names."""
    link = addresses.resolver(ROOT, str(procedure.id))
    pictures, files = picture_views(procedure, read_picture)
    walk = unfold(route)
    power = energy_states(follow(walk, map(str, procedure.before.energy), shared.energy))

    def inline(text: str | None) -> Markup:
        return Markup(render_inline(fill(text, {}, shared), link)) if text else Markup("")

    def blocks(text: str | None) -> Markup:
        return Markup(render_blocks(fill(text, {}, shared), link)) if text else Markup("")

    def notes(about: str) -> tuple[Markup, ...]:
        return tuple(inline(note.note) for note in shared.site_notes.get(about, ()))

    views = StepViews(
        StepContext(
            route=route,
            power=power,
            shared=shared,
            family=str(procedure.applies.family),
            pictures=pictures,
            link=link,
            titles=titles,
            notes=lambda key: notes(f"procedure:{procedure.id}#{key}"),
            hand_over=hand_over(procedure, route, walk, shared, inline),
            stages=lambda place: window_words(place, shared),
        )
    )
    groups = tuple(_groups(procedure, route, views))
    hazards = hazard_views(_hazard_names(procedure, route), shared)
    chart = chart_of(procedure, route, power, shared)
    html = render(
        "procedure.html",
        p=procedure,
        shared=shared,
        wording=wording,
        snippets=snippets,
        addresses=addresses,
        root=ROOT,
        inline=inline,
        blocks=blocks,
        notes=notes,
        titles=titles,
        family=shared.families.get(procedure.applies.family),
        variants=shared.variants_of(procedure.applies.family),
        state=wording.DOCUMENT[procedure.state],
        due=procedure.review.every.after(procedure.review.last),
        alarms=tuple(_alarms(procedure, shared, inline)),
        weights=sum(cause.weight for cause in procedure.causes),
        hazards=hazards,
        signs=Markup(symbol_sheet(_sign_codes(procedure, route, shared))),
        tools=_tools(procedure, route, shared, inline),
        parts=_parts(procedure, route, shared, inline),
        consumables=_consumables(procedure, shared),
        chart=Markup(svg(chart, layout(chart))),
        outline=outline(chart),
        sign_use=lambda code: Markup(use(str(code)) if sign(str(code)) else ""),
        stored_words=stored_words,
        times=time_table(procedure, route, walk, shared, inline),
        groups=groups,
    )
    return Page(addresses.procedure(procedure.id), str(procedure.title), html), files


def _groups(procedure: Procedure, route: Route, views: StepViews) -> list[GroupView]:
    by_group: dict[int, list[Place]] = {}
    for place in route.places.values():
        by_group.setdefault(id(place.group), []).append(place)
    shown = ((group, by_group.get(id(group), [])) for group in procedure.steps)
    return [GroupView(str(group.group), tuple(views.view(place) for place in places)) for group, places in shown]


def _hazard_names(procedure: Procedure, route: Route) -> list[str]:
    own = map(str, procedure.before.hazards)
    return [*own, *(name for place in route.all_places for name in place.hazards)]


def _sign_codes(procedure: Procedure, route: Route, shared: Shared) -> set[str]:
    hazards = {str(shared.hazards[name].sign) for name in _hazard_names(procedure, route) if name in shared.hazards}
    worn = {*procedure.before.ppe, *(name for place in route.all_places for name in place.step.ppe)}
    return hazards | {str(shared.ppe[name].sign) for name in worn if name in shared.ppe}


def _alarms(procedure: Procedure, shared: Shared, inline: Callable[[str | None], Markup]) -> list[AlarmView]:
    return [
        AlarmView(shared.displays[one.display], alarm, wording.RAISED[one.raised], inline(one.note))
        for one in procedure.alarms
        if (alarm := shared.alarms.get((one.display, one.code)))
    ]


def _tools(
    procedure: Procedure, route: Route, shared: Shared, inline: Callable[[str | None], Markup]
) -> tuple[NeedView, ...]:
    whys = {str(one.tool): one.why for one in procedure.before.tools}
    used = uses(route, lambda place: place.step.tools)
    return tuple(
        NeedView(
            record=shared.tools[one.name],
            anchor=f"{ROOT}{addresses.TOOLS}#tool-{one.name}",
            always=one.always,
            branches=one.branches,
            remark=inline(whys.get(one.name) or shared.tools[one.name].remark),
            amount="",
        )
        for one in _always_first(used)
        if one.name in shared.tools
    )


def _parts(
    procedure: Procedure, route: Route, shared: Shared, inline: Callable[[str | None], Markup]
) -> tuple[NeedView, ...]:
    used = {one.name: one for one in uses(route, lambda place: (*place.step.parts, *getattr(place.step, "orders", ())))}
    return tuple(
        NeedView(
            record=shared.parts[one.part],
            anchor=f"{ROOT}{addresses.PARTS}#part-{one.part}",
            always=str(one.part) in used and used[str(one.part)].always,
            branches=used[str(one.part)].branches if str(one.part) in used else (),
            remark=inline(one.why),
            amount=str(one.amount),
        )
        for one in procedure.before.parts
        if one.part in shared.parts
    )


def _consumables(procedure: Procedure, shared: Shared) -> tuple[tuple[object, str], ...]:
    return tuple(
        (shared.consumables[one.consumable], str(one.amount))
        for one in procedure.before.consumables
        if one.consumable in shared.consumables
    )


def _always_first(used: tuple[Use, ...]) -> list[Use]:
    return sorted(used, key=lambda one: not one.always)
