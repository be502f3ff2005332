"""The alarm stages before which work must be done: how much time there is, and how much the work can take."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from kbgen.analysis.extremes import longest_path
from kbgen.analysis.spent import Spent
from kbgen.analysis.unwind import spent_at, unwind
from kbgen.model.procedure import Procedure
from kbgen.model.shared import Shared
from kbgen.model.steps import Window
from kbgen.model.tables import Alarm, Stage
from kbgen.route.route import Place, Route, Way
from kbgen.route.unfold import Walk


@dataclass(frozen=True)
class Deadline:
    """A window with its alarm and stage, and the places of the walk that must be done in it.

    ``allowed`` is the time in seconds from the alarm's first sign until the stage begins, None where the alarm list
    does not say when it begins.
    """

    window: Window
    alarm: Alarm
    stage: Stage
    places: tuple[str, ...]

    @property
    def allowed(self) -> int | None:
        """The time there is."""
        return allowed(self.alarm, self.stage)


@dataclass(frozen=True)
class Need:
    """The longest time that a deadline may need: from the start to its last place, or for that place alone."""

    place: str
    spent: Spent
    path: tuple[tuple[str, Way | None], ...]


def window_at(place: Place) -> Window | None:
    """The window of a step: its own, or that of its group."""
    return place.step.before_stage or place.group.before_stage


def stage_of(window: Window, shared: Shared) -> tuple[Alarm, Stage] | None:
    """The alarm and the stage of a window; None where the alarm list does not have them."""
    alarm = shared.alarms.get((window.display, window.code))
    stage = next((one for one in alarm.stages if one.id == window.stage), None) if alarm else None
    return (alarm, stage) if alarm and stage else None


def allowed(alarm: Alarm, stage: Stage) -> int | None:
    """The seconds from the first stage of an alarm, in which it is first seen, until a stage begins."""
    if stage.after is None:
        return None
    first = alarm.stages[0].after
    return stage.after.seconds - (first.seconds if first else 0)


def deadlines(route: Route, shared: Shared) -> tuple[Deadline, ...]:
    """All deadlines in the order of the page; a step of a shared sequence has that of the step that runs it."""
    found: dict[int, tuple[Window, list[str]]] = {}
    for place in route.places.values():
        over = window_at(place)
        for one in place.inside or (place,):
            window = window_at(one) or over
            if window is not None:
                found.setdefault(id(window), (window, []))[1].append(one.key)
    return tuple(
        Deadline(window, *known, tuple(places))
        for window, places in found.values()
        if (known := stage_of(window, shared))
    )


def need(deadline: Deadline, procedure: Procedure, walk: Walk) -> Need | None:
    """The longest time that the work of a deadline may need; None if it is never done, or in a loop without a limit.

    Where the window repeats, only each single step must fit into it, with all its set-ups; otherwise everything from
    the start of the procedure to the end of the work. Raises TooManySituationsError.
    """
    set_ups = {str(one.id): one.takes.seconds for one in procedure.set_ups}
    if deadline.window.repeats:
        alone = {key: _alone(walk.places[key], set_ups) for key in deadline.places}
        longest = max(alone, key=lambda key: alone[key])
        return Need(longest, alone[longest], ((longest, None),))
    unwound = unwind(walk, set_ups, deadline.places)
    if unwound is None:
        return None
    spent, path = longest_path(unwound, deadline.places)
    return Need(path[-1][0], spent, tuple(path)) if path else None


def _alone(place: Place, set_ups: Mapping[str, int]) -> Spent:
    once = dict.fromkeys(map(str, place.step.set_up))
    return spent_at(place.step).plus(Spent(sum(set_ups.get(name, 0) for name in once)))
