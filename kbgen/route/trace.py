"""Procedure -> Route: follow what the author wrote, with the shared sequences put in where they are run.

Names that lead nowhere are left out here; the check of references reports them.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import zip_longest

from kbgen.model.procedure import Procedure
from kbgen.model.shared import Shared
from kbgen.model.steps import NEXT, Answer, Ask, End, Exit, Finish, Group, Needs, Onward, Prove, Read, Run, Step
from kbgen.model.tables import SharedSequence
from kbgen.model.values import Text
from kbgen.route.route import Place, Route, Way

CANNOT_TELL = "Cannot tell"
SOMETHING_ELSE = "Something else, or cannot tell"
NOT_AVAILABLE = "Reading not possible"
NOT_PROVED = "Energy still found"
PROVED = "Proved"
USED_UP = "Still so after {} times"


def trace(procedure: Procedure, shared: Shared) -> Route:
    """Build the route of a procedure."""
    return _route(procedure.steps, shared)


def trace_sequence(sequence: SharedSequence, shared: Shared) -> Route:
    """Build the route of a shared sequence by itself, from its first step to its ends."""
    return _route(sequence.steps, shared)


def _route(groups: Iterable[Group], shared: Shared) -> Route:
    placed = list(_numbered(groups))
    places = {
        str(step.id): _place(step.id, str(number), step, group, {}, shared)
        for number, (group, step) in enumerate(placed, start=1)
    }
    steps = [step for _, step in placed]
    ways, dead_ends = _ways(steps, shared)
    return Route(str(steps[0].id) if steps else "", places, ways, dead_ends)


def _numbered(groups: Iterable[Group]) -> Iterator[tuple[Group, Step]]:
    for group in groups:
        for step in group.steps:
            if step is not None and step.id:
                yield group, step


def _place(key: str, number: str, step: Step, group: Group, binding: Mapping[str, str], shared: Shared) -> Place:
    inside, ways_inside = _inside(key, number, step, shared)
    energy = {**(group.energy or {}), **(step.energy or {})}
    hazards = dict.fromkeys(map(str, (*group.hazards, *step.hazards)))
    return Place(
        key=str(key),
        number=number,
        step=step,
        group=group,
        person=step.person or group.person,
        energy={binding.get(name, str(name)): state for name, state in energy.items()},
        hazards=tuple(hazards),
        binding=binding,
        inside=inside,
        ways_inside=ways_inside,
    )


def _inside(key: str, number: str, step: Step, shared: Shared) -> tuple[tuple[Place, ...], tuple[Way, ...]]:
    sequence = shared.sequences.get(step.run) if isinstance(step, Run) else None
    if sequence is None or not isinstance(step, Run):
        return (), ()
    binding = {str(name): str(source) for name, source in (step.with_ or {}).items()}
    placed = list(_numbered(sequence.steps))
    steps = [one for _, one in placed]
    inner = [
        _place(f"{key}.{one.id}", f"{number}.{place}", one, group, binding, shared)
        for place, (group, one) in enumerate(((g, s) for g, s in placed if not isinstance(s, End)), start=1)
    ]
    known = {str(one.id) for one in steps}
    ways = [way for one, following in _with_next(steps) for way in _step_ways(one, following, known, shared)]
    ends = {str(one.id): one for one in steps if isinstance(one, End)}
    return tuple(inner), tuple(_renamed(way, key, ends) for way in ways)


def _renamed(way: Way, key: str, ends: Mapping[str, End]) -> Way:
    """Give a way of a sequence the keys it has here; an end is named by the outcome it comes to."""
    target = f"={ends[way.target].end}" if way.target in ends else f"{key}.{way.target}"
    return way._replace(source=f"{key}.{way.source}", target=target)


def _ways(steps: list[Step], shared: Shared) -> tuple[tuple[Way, ...], tuple[str, ...]]:
    known = {str(step.id) for step in steps}
    ways: list[Way] = []
    dead_ends = []
    for step, following in _with_next(steps):
        leaving = list(_step_ways(step, following, known, shared))
        ways.extend(leaving)
        if not leaving and not isinstance(step, (Finish, End)):
            dead_ends.append(str(step.id))
    return tuple(ways), tuple(dead_ends)


def _with_next(steps: list[Step]) -> Iterator[tuple[Step, str | None]]:
    following = (str(step.id) for step in steps[1:])
    yield from zip_longest(steps, following)


def _step_ways(step: Step, following: str | None, known: set[str], shared: Shared) -> Iterator[Way]:
    for way in _written_ways(step, following, shared):
        if way.target in known:
            yield way


def _written_ways(step: Step, following: str | None, shared: Shared) -> Iterator[Way]:
    if isinstance(step, Ask):
        for answer in step.answers:
            yield from _exit_ways(step, answer, str(answer.answer), str(answer.id), following)
        label = step.cannot_tell.answer or _words_for_no_answer(step.answers)
        yield from _exit_ways(step, step.cannot_tell, str(label), "cannot-tell", following)
    elif isinstance(step, Read):
        for band in step.bands:
            yield from _exit_ways(step, band, str(band.answer), str(band.id), following)
        label = step.not_available.answer or NOT_AVAILABLE
        yield from _exit_ways(step, step.not_available, str(label), "not-available", following)
    elif isinstance(step, Run):
        yield from _run_ways(step, following, shared)
    elif isinstance(step, Onward):
        yield from _onward_ways(step, following)


def _words_for_no_answer(answers: Sequence[Answer]) -> str:
    """The words for leaving a question by none of its answers; only yes and no leave nothing else to be seen."""
    first_words = sorted(re.split(r"\W", str(one.answer).casefold(), maxsplit=1)[0] for one in answers)
    return CANNOT_TELL if first_words == ["no", "yes"] else SOMETHING_ELSE


def _run_ways(step: Run, following: str | None, shared: Shared) -> Iterator[Way]:
    sequence = shared.sequences.get(step.run)
    texts = {str(one.id): str(one.text) for one in sequence.outcomes} if sequence else {}
    for ending, go in step.outcomes.items():
        label = texts.get(ending, str(ending)) if len(step.outcomes) > 1 else ""
        yield Way(str(step.id), _target(go, following), label, str(ending), go.at)


def _onward_ways(step: Onward, following: str | None) -> Iterator[Way]:
    label = PROVED if isinstance(step, Prove) else ""
    go = step.go or Text.of(NEXT, step.id.at)
    yield Way(str(step.id), _target(go, following), label, "", go.at, step.at_most)
    if step.after_that:
        yield _used_up(step, step.after_that, step.at_most, following)
    if isinstance(step, Prove):
        yield Way(str(step.id), _target(step.not_proved, following), NOT_PROVED, "not-proved", step.not_proved.at)


def _exit_ways(step: Step, exit: Exit, label: str, answer: str, following: str | None) -> Iterator[Way]:
    yield Way(str(step.id), _target(exit.go, following), label, answer, exit.go.at, exit.at_most)
    if exit.after_that:
        yield _used_up(step, exit.after_that, exit.at_most, following)._replace(answer=answer)


def _used_up(step: Needs, go: Text, limit: int | None, following: str | None) -> Way:
    return Way(str(step.id), _target(go, following), USED_UP.format(limit or 1), "", go.at, None, after=True)


def _target(go: Text, following: str | None) -> str:
    return (following or "") if go == NEXT else str(go)
