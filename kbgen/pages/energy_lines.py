"""The lines of a step's work plan that speak of energy: live work, reach, proofs and waits."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from markupsafe import Markup

from kbgen.analysis.discharge import draining_time, margin_of
from kbgen.model.shared import Shared
from kbgen.model.steps import Energise, EnergyStep, Prove, Wait
from kbgen.pages import wording
from kbgen.pages.line import Line
from kbgen.route.route import Place

ProseOf = Callable[[str, Place], Markup]


def energy_lines(place: Place, shared: Shared, prose: ProseOf) -> Iterator[Line]:
    """The lines that belong to the kind of step, then those on live work and on what cannot reach the person."""
    step = place.step
    if isinstance(step, Prove):
        yield from _proof(step)
    elif isinstance(step, Wait):
        yield from _wait(place, step, shared)
    elif isinstance(step, Energise):
        yield Line("Confirm first", Markup("; ").join(Markup.escape(wording.READY[one]) for one in step.confirm))
    if isinstance(step, EnergyStep) and step.point and step.point in shared.points:
        point = shared.points[step.point]
        yield Line("Isolation point", Markup.escape(f"{point.name}: {point.device}. {point.where}. {point.lock_with}."))
    yield from _live_work(place, shared, prose)
    yield from _out_of_reach(place, shared, prose)


def _proof(step: Prove) -> Iterator[Line]:
    yield Line("Proof", Markup.escape(wording.MEANS[step.by]))
    if step.below:
        yield Line("Accept", Markup.escape(f"below {step.below}"))
    if step.tester_proved:
        yield Line("Tester", Markup("Prove the tester on a known source before the test and again after it."))


def _wait(place: Place, step: Wait, shared: Shared) -> Iterator[Line]:
    source = shared.energy.get(place.bound(step.discharges)) if step.discharges else None
    seconds = draining_time(source) if source else None
    if source and source.stored and seconds:
        words = (
            f"{source.stored.voltage} falls to {source.stored.safe_voltage} within {seconds} s "
            f"(resistance and capacitance from the tables, times {margin_of(source):g})."
        )
        yield Line("Worked out", Markup.escape(words))
    yield Line("Remember", Markup("Waiting is no proof. The test decides."))


def _live_work(place: Place, shared: Shared, prose: ProseOf) -> Iterator[Line]:
    work = place.step.live_work
    if work:
        who = shared.qualifications.get(work.qualification)
        name = Markup.escape(who.name if who else work.qualification)
        yield Line("Live work", Markup("{} Only: {}.").format(prose(work.reason, place), name))


def _out_of_reach(place: Place, shared: Shared, prose: ProseOf) -> Iterator[Line]:
    for name, reason in {**(place.group.out_of_reach or {}), **(place.step.out_of_reach or {})}.items():
        source = shared.energy.get(place.bound(name))
        if source:
            said = Markup("{}: {}").format(wording.sentence_case(source.name), prose(reason, place))
            yield Line("Out of reach", said)
