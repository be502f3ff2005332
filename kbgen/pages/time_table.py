"""How long a procedure takes, as the page shows it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from markupsafe import Markup

from kbgen.analysis.spent import Spent, about
from kbgen.analysis.times import JobTime, OutcomeTime, PersonTime, Times, times
from kbgen.analysis.unwind import MOST_SITUATIONS
from kbgen.model.procedure import Cause, Procedure
from kbgen.model.shared import Shared
from kbgen.pages import wording
from kbgen.pages.addresses import step_anchor
from kbgen.route.route import Route
from kbgen.route.unfold import Walk

NOT_COMPUTED = (
    f"Not computed: the loops can be gone through in more than {MOST_SITUATIONS:,} combinations, or a path has no end."
)


@dataclass(frozen=True)
class TimeCell:
    """A time, and how much of it is waiting; empty where there is none."""

    whole: str
    waiting: str


@dataclass(frozen=True)
class TimeRow:
    """The shortest, expected and longest time of something."""

    shortest: TimeCell
    expected: TimeCell
    longest: TimeCell


@dataclass(frozen=True)
class OutcomeRow(TimeRow):
    """The times to an outcome, and how many jobs are estimated to end there."""

    href: str
    result: str
    text: Markup
    share: str


@dataclass(frozen=True)
class PersonRow:
    """A qualification with the hours that a job binds on average."""

    name: str
    persons: int
    hours: str
    waiting: str


@dataclass(frozen=True)
class TimeTable:
    """The table of times; ``missing`` says why there is none, ``unstated`` which steps give no time."""

    missing: str = ""
    whole: TimeRow | None = None
    outcomes: tuple[OutcomeRow, ...] = ()
    people: tuple[PersonRow, ...] = ()
    basis: str = ""
    unstated: str = ""


def time_table(
    procedure: Procedure, route: Route, walk: Walk, shared: Shared, inline: Callable[[str | None], Markup]
) -> TimeTable:
    """Work out the times of a procedure and put them in words."""
    found = times(procedure, route, walk)
    if found is None:
        return TimeTable(missing=NOT_COMPUTED)
    return TimeTable(
        whole=TimeRow(**_cells(found.whole)),
        outcomes=tuple(_outcome(one, inline) for one in found.outcomes),
        people=tuple(_person_row(one, shared) for one in found.persons),
        basis=basis_words(procedure.causes),
        unstated=_unstated(found),
    )


def share_words(share: float) -> str:
    """How many of a hundred jobs end so."""
    if not share:
        return "not reckoned with"
    return f"about {round(100 * share)} of 100 jobs" if share >= 0.015 else "about 1 of 100 jobs or fewer"


def basis_words(causes: Iterable[Cause]) -> str:
    """What the weights of the causes rest on."""
    known = {cause.basis for cause in causes}
    return wording.BASIS[known.pop()] if len(known) == 1 else "partly from records, partly by judgement"


def hours(seconds: int) -> str:
    """Hours with one decimal."""
    return f"{seconds / 3600:.1f}"


def _outcome(one: OutcomeTime, inline: Callable[[str | None], Markup]) -> OutcomeRow:
    return OutcomeRow(
        **_cells(one),
        href=f"#{step_anchor(one.place.key)}",
        result=wording.RESULT[one.end.result],
        text=inline(one.end.outcome),
        share=share_words(one.share),
    )


def _cells(one: JobTime) -> dict[str, TimeCell]:
    expected = _cell(one.expected) if one.expected else TimeCell("–", "")
    return {"shortest": _cell(one.shortest), "expected": expected, "longest": _cell(one.longest)}


def _cell(spent: Spent) -> TimeCell:
    return TimeCell(about(spent.whole), about(spent.waiting) if spent.waiting else "")


def _person_row(one: PersonTime, shared: Shared) -> PersonRow:
    known = shared.qualifications.get(one.qualification)
    name = str(known.name) if known else one.qualification
    return PersonRow(name, one.persons, hours(one.spent.whole), hours(one.spent.waiting) if one.spent.waiting else "")


def _unstated(found: Times) -> str:
    if not found.unstated:
        return ""
    one = len(found.unstated) == 1
    steps = f"{'Step' if one else 'Steps'} {', '.join(found.unstated)}"
    return f"{steps} {'says' if one else 'say'} no time and {'counts' if one else 'count'} as none."
