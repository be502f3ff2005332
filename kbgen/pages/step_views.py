"""What the page shows of each step."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace

from markupsafe import Markup

from kbgen.analysis.energy import States
from kbgen.model.shared import Shared
from kbgen.model.steps import Ask, Band, Energise, EnergyStep, Finish, Prove, Read, Run, Step, Undo
from kbgen.model.steps import Change as ChangeStep
from kbgen.model.words import EnergyKind, EnergyState
from kbgen.pages import wording
from kbgen.pages.addresses import procedure as procedure_address
from kbgen.pages.addresses import step_anchor
from kbgen.pages.charts import Power, power_at
from kbgen.pages.energy_lines import energy_lines
from kbgen.pages.fill import fill
from kbgen.pages.hand_over import HandOver
from kbgen.pages.hazards import HazardView, hazard_views
from kbgen.pages.line import Line
from kbgen.pages.picture_views import PictureView
from kbgen.pages.reading_lines import limits, reading_lines, shown_unit
from kbgen.pages.texts import main_text
from kbgen.prose import render_inline
from kbgen.route.route import Place, Route, Way
from kbgen.signs.svg import use


@dataclass(frozen=True)
class PowerView:
    """The state of one energy source at a step; ``tone`` is live, off or between."""

    name: str
    state: str
    tone: str
    is_electrical: bool
    changed: bool


@dataclass(frozen=True)
class WayView:
    """A way on: the words on it, where it leads, and how often it may be taken."""

    label: str
    limits: str
    href: str
    target: str
    remark: str
    plain: bool


@dataclass(frozen=True)
class StepView:
    """Everything that the page shows of a step."""

    anchor: str
    number: str
    kind: str
    tone: str
    text: Markup
    person: str
    person_tone: str
    power: tuple[PowerView, ...]
    becomes: str
    becomes_live: bool
    hazards: tuple[HazardView, ...]
    only: str
    lines: tuple[Line, ...]
    picture: PictureView | None
    callouts: tuple[int, ...]
    ways: tuple[WayView, ...]
    reading_unit: str
    notes: tuple[Markup, ...]
    inside: tuple[StepView, ...]
    inside_title: str


@dataclass(frozen=True)
class StepContext:
    """What is needed to show the steps of one procedure."""

    route: Route
    power: Power
    shared: Shared
    family: str
    pictures: Mapping[str, PictureView]
    link: Callable[[str], str | None]
    titles: Mapping[str, str]
    notes: Callable[[str], tuple[Markup, ...]]
    hand_over: HandOver
    stages: Callable[[Place], str]


class StepViews:
    """Builds the views in the order of the page, and remembers the power state that was shown last."""

    def __init__(self, context: StepContext) -> None:
        self._context = context
        self._shown: dict[str, tuple[str, str]] = {}

    def view(self, place: Place, outer: Place | None = None) -> StepView:
        """The view of a step, the steps of its sequence included; ``outer`` runs the sequence that the step is in."""
        power = self._power(place)
        step = place.step
        context = self._context
        return StepView(
            anchor=step_anchor(place.key),
            number=place.number,
            kind=wording.step_kind(step),
            tone=_tone(step),
            text=self._prose(main_text(step, context.shared), place),
            person=wording.PERSON[place.person] if place.person else "",
            person_tone=place.person.value if place.person else "",
            power=power,
            becomes=self._becomes(place),
            becomes_live=isinstance(step, Energise),
            hazards=hazard_views(place.hazards, context.shared),
            only=self._only(place),
            lines=tuple(self._lines(place)),
            picture=context.pictures.get(step.picture or ""),
            callouts=tuple(step.callouts),
            ways=self._inner_ways(place, outer) if outer else self._ways(place),
            reading_unit=shown_unit(step) if isinstance(step, Read) else "",
            notes=context.notes(place.key),
            inside=tuple(self.view(one, place) for one in place.inside),
            inside_title=_sequence_title(step, context.shared),
        )

    def _prose(self, text: str, place: Place) -> Markup:
        context = self._context
        return Markup(render_inline(fill(text, place.binding, context.shared), context.link))

    def _power(self, place: Place) -> tuple[PowerView, ...]:
        views = []
        for source in sorted(place.energy):
            known = self._context.shared.energy.get(source)
            if known is None:
                continue
            states = _states(place, source, self._context.power)
            state, tone = _power_words(states, known.kind)
            changed = self._shown.get(source, (state, tone)) != (state, tone)
            self._shown[source] = (state, tone)
            name = wording.sentence_case(known.name)
            views.append(PowerView(name, state, tone, wording.is_electrical(known.kind), changed))
        return tuple(views)

    def _becomes(self, place: Place) -> str:
        known = self._context.shared.energy
        if not isinstance(place.step, EnergyStep) or place.source is None or place.source not in known:
            return ""
        source = known[place.source]
        when = "If the test passes" if isinstance(place.step, Prove) else "After this step"
        return f"{when}: {source.name} {wording.becomes(place.step, source.kind)}"

    def _only(self, place: Place) -> str:
        variants = self._context.shared.variants_of(self._context.family)
        names = [str(variants[one].name) for one in (place.step.only or place.group.only) if one in variants]
        return f"Only for: {', '.join(names)}" if names else ""

    def _lines(self, place: Place) -> Iterable[Line]:
        step, shared = place.step, self._context.shared
        stage = self._context.stages(place)
        if stage:
            yield Line("Before", Markup.escape(stage))
        if step.takes:
            yield Line("Time", Markup.escape(step.takes))
        yield from _named("Who", step.done_by or place.group.done_by, shared.qualifications)
        yield from _named("Tools", step.tools, shared.tools)
        yield from _named("Parts", step.parts, shared.parts)
        yield from _named("Consumables", step.consumables, shared.consumables)
        if step.ppe:
            signs = [
                f"{use(str(one.sign))} {Markup.escape(one.name)}" for name in step.ppe if (one := shared.ppe.get(name))
            ]
            yield Line("Wear", Markup("; ").join(map(Markup, signs)))
        yield from self._kind_lines(place)
        yield from energy_lines(place, shared, self._prose)
        if step.why:
            yield Line("Why", self._prose(step.why, place))
        if step.note:
            yield Line("Note", self._prose(step.note, place))
        if step.clip:
            yield Line("Clip", Markup.escape(f"{step.clip.file}, {step.clip.from_} to {step.clip.to}"))

    def _kind_lines(self, place: Place) -> Iterable[Line]:
        step = place.step
        if isinstance(step, Ask) and step.how_to_tell:
            yield Line("How to tell", self._prose(step.how_to_tell, place))
        elif isinstance(step, Read):
            yield from reading_lines(step)
        elif isinstance(step, ChangeStep):
            yield from self._context.hand_over.change_lines(step)
        elif isinstance(step, Undo):
            yield Line("Closes", Markup.escape(self._context.hand_over.name(step.closes)))
        elif isinstance(step, Finish):
            yield from self._outcome_lines(step, place)

    def _outcome_lines(self, step: Finish, place: Place) -> Iterable[Line]:
        shared = self._context.shared
        yield from self._context.hand_over.outcome_lines(place)
        if step.contact and step.contact in shared.contacts:
            contact = shared.contacts[step.contact]
            yield Line("Call", Markup.escape(f"{contact.name}: {contact.reach} ({contact.hours})"))
        if step.report:
            items = Markup("").join(Markup("<li>{}</li>").format(self._prose(one, place)) for one in step.report)
            yield Line("Report", Markup("<ul>{}</ul>").format(items))
        for name in step.orders:
            if name in shared.parts:
                part = shared.parts[name]
                yield Line("Order", Markup.escape(f"{part.name}, number {part.number}"))
        if step.procedure:
            title = self._context.titles.get(str(step.procedure), str(step.procedure))
            href = f"../{procedure_address(step.procedure)}"
            yield Line("Go on with", Markup('<a class="kb-go" href="{}">{}</a>').format(href, title))

    def _ways(self, place: Place) -> tuple[WayView, ...]:
        ways = self._context.route.ways_from(place.key)
        bands = {str(band.id): band for band in getattr(place.step, "bands", ())}
        return tuple(self._way(way, bands.get(way.answer), getattr(place.step, "unit", "")) for way in ways)

    def _inner_ways(self, place: Place, outer: Place) -> tuple[WayView, ...]:
        bands = {str(band.id): band for band in getattr(place.step, "bands", ())}
        unit = getattr(place.step, "unit", "")
        leaving = [way for way in outer.ways_inside if way.source == place.key]
        told = (limits(bands[way.answer], unit) if way.answer in bands else "" for way in leaving)
        return tuple(replace(self._inner_way(way, outer), limits=one) for way, one in zip(leaving, told, strict=True))

    def _way(self, way: Way, band: Band | None, unit: str) -> WayView:
        target = self._context.route.places[way.target]
        remark = f"at most {wording.counted(way.limit, 'time', 'times')}" if way.limit else ""
        return WayView(
            label=way.label,
            limits=limits(band, unit) if band else "",
            href=f"#{step_anchor(way.target)}",
            target=f"{_onward(target)} {target.number}",
            remark=remark,
            plain=not way.label,
        )

    def _inner_way(self, way: Way, outer: Place) -> WayView:
        if not way.target.startswith("="):
            number = next((one.number for one in outer.inside if one.key == way.target), "")
            return WayView(way.label, "", f"#{step_anchor(way.target)}", f"Go to step {number}", "", not way.label)
        onward = {one.answer: one for one in self._context.route.ways_from(outer.key)}
        leads = onward.get(way.target[1:])
        if leads is None:
            return WayView(way.label, "", f"#{step_anchor(outer.key)}", "No way on is stated", "", not way.label)
        target = self._context.route.places[leads.target]
        words = way.label or leads.label
        return WayView(words, "", f"#{step_anchor(leads.target)}", f"{_onward(target)} {target.number}", "", not words)


def _states(place: Place, source: str, power: Power) -> States:
    """What a step needs; where it needs nothing in particular, what the paths to it can leave."""
    needed = place.energy[source]
    if needed is not EnergyState.ANY:
        return frozenset({needed})
    return power_at(place, source, power)


def _power_words(states: States, kind: EnergyKind) -> tuple[str, str]:
    if states == {EnergyState.LIVE}:
        return wording.energy_state(EnergyState.LIVE, kind), "live"
    if EnergyState.LIVE in states or not states:
        return f"may be {wording.present(kind)}: treat it so", "live"
    if len(states) > 1:
        least = min(states, key=list(EnergyState).index)
        return f"at least {wording.energy_state(least, kind)}", "between"
    (state,) = states
    return wording.energy_state(state, kind), "off" if state is EnergyState.VERIFIED else "between"


def _onward(target: Place) -> str:
    return "Outcome: step" if isinstance(target.step, Finish) else "Go to step"


def _tone(step: Step) -> str:
    if isinstance(step, Finish):
        return f"outcome-{step.result.value}"
    if isinstance(step, EnergyStep):
        return "energy"
    if isinstance(step, (ChangeStep, Undo)):
        return "change"
    return step.starts_with


def _sequence_title(step: Step, shared: Shared) -> str:
    if isinstance(step, Run) and step.run in shared.sequences:
        return str(shared.sequences[step.run].title)
    return ""


def _named(word: str, names: Iterable[str], table: Mapping[str, object]) -> Iterable[Line]:
    known = [Markup.escape(getattr(table[name], "name")) for name in names if name in table]  # noqa: B009
    if known:
        yield Line(word, Markup("; ").join(known))
