"""A walk -> how likely each way is while each cause is there, and what the repairs remove."""

from __future__ import annotations

from collections import deque
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from kbgen.analysis.replies import Reply, Shares, even_shares, shares_when_gone, shares_while_there
from kbgen.model.procedure import Procedure
from kbgen.model.steps import Answer, Ask, Band, Do, Finish, Prove, Read, Step
from kbgen.model.words import Result
from kbgen.route.unfold import Walk

LAST_RESORTS = ("cannot-tell", "not-available", "not-proved")


@dataclass(frozen=True)
class Chances:
    """What can be the matter, and how it steers the work.

    ``at_start`` is the chance of each state of the fault: one for each cause, and a last one for a cause that is
    gone. ``ways`` gives, for each place with a choice and each answer there, its chance in each of these states;
    ``removes`` gives for each place the chance that it removes the cause of each state.
    """

    at_start: tuple[float, ...]
    ways: Mapping[str, Mapping[str, Shares]] = field(default_factory=dict)
    removes: Mapping[str, Shares] = field(default_factory=dict)


def chances(procedure: Procedure, walk: Walk) -> Chances:
    """Work out the chances of a procedure from its weights of causes, its finds and its removes."""
    whole = sum(cause.weight for cause in procedure.causes)
    names = [str(cause.id) for cause in procedure.causes]
    removes = {
        key: tuple(gone.get(name, 0.0) for name in names)
        for key, place in walk.places.items()
        if (gone := _certainties(place.step, "removes"))
    }
    surroundings = _Surroundings(walk)
    ways = {key: _ways(key, names, walk, surroundings) for key in walk.edges if len(_answers(walk, key)) > 1}
    return Chances((*(cause.weight / whole for cause in procedure.causes), 0.0), ways, removes)


def _ways(key: str, names: Sequence[str], walk: Walk, around: _Surroundings) -> Mapping[str, Shares]:
    step, answers = walk.places[key].step, _answers(walk, key)
    written = {str(one.id): one for one in (*getattr(step, "answers", ()), *getattr(step, "bands", ()))}
    replies = [_reply(answer, target, written, around) for answer, target in answers.items()]
    if not isinstance(step, (Ask, Read)):
        by_state = [even_shares(replies)] * (len(names) + 1)
    else:
        finds = _certainties(step, "finds")
        by_state = [*(shares_while_there(name, replies, finds) for name in names), shares_when_gone(replies)]
    return dict(zip(answers, zip(*by_state, strict=True), strict=True))


def _answers(walk: Walk, key: str) -> dict[str, str]:
    """The answers of a place with where each leads while no limit is used up."""
    answers: dict[str, str] = {}
    for target, way in walk.edges.get(key, ()):
        answers.setdefault(way.answer, target)
    return answers


def _reply(answer: str, target: str, written: Mapping[str, Answer | Band], around: _Surroundings) -> Reply:
    one = written.get(answer)
    end = around.straight_to(target)
    return Reply(
        confirms=frozenset(map(str, one.confirms)) if one else frozenset(),
        rules_out=frozenset(map(str, one.rules_out)) if one else frozenset(),
        shows_symptom=isinstance(one, Answer) and one.symptom is not None,
        accepted=isinstance(one, Band) and one.accepted,
        last_resort=one is None and answer in LAST_RESORTS,
        ends_with=_goes_with(end) if isinstance(end, Finish) else None,
        breaks_off=isinstance(end, Finish) and end.result is Result.ESCALATE and not end.causes,
        repairs=frozenset(_certainties(end, "removes")) if isinstance(end, Do) else None,
        away=around.away.get(target),
    )


def _certainties(step: Step, field_name: str) -> Mapping[str, float]:
    return {str(one.cause): one.certainty for one in getattr(step, field_name, ())}


class _Surroundings:
    """Where each place leads to."""

    def __init__(self, walk: Walk) -> None:
        self._walk = walk
        self.away = _away(walk)

    def straight_to(self, key: str) -> Finish | Do | None:
        """The outcome or repair that a place leads to with no question before it."""
        met: set[str] = set()
        while key not in met:
            met.add(key)
            step = self._walk.places[key].step
            if isinstance(step, Finish) or (isinstance(step, Do) and step.removes):
                return step
            answers = _answers(self._walk, key)
            if not answers or _is_hurdle(step, answers):
                return None
            key = next(iter(answers.values()))
        return None


def _goes_with(end: Finish) -> frozenset[str] | None:
    """The causes that go with an outcome; None where it says nothing of causes."""
    if end.result is Result.FIXED:
        return frozenset()
    return frozenset(map(str, end.causes)) if end.causes or end.result is Result.OTHER_PROCEDURE else None


def _is_hurdle(step: Step, answers: Mapping[str, str]) -> bool:
    """Tell whether a step asks or repairs something."""
    return (len(answers) > 1 and not isinstance(step, Prove)) or (isinstance(step, Do) and bool(step.removes))


def _away(walk: Walk) -> Mapping[str, int]:
    """How many questions and repairs are passed at least from each place to an outcome fixed."""
    sources: dict[str, dict[str, None]] = {}
    for source, leaving in walk.edges.items():
        for target, _ in leaving:
            sources.setdefault(target, {})[source] = None
    ends = [one.key for one in walk.places.values() if isinstance(one.step, Finish) and one.step.result is Result.FIXED]
    away: dict[str, int] = {}
    todo = deque((key, 0) for key in ends)
    while todo:
        key, count = todo.popleft()
        if key in away:
            continue
        away[key] = count
        for source in sources.get(key, ()):
            if _is_hurdle(walk.places[source].step, _answers(walk, source)):
                todo.append((source, count + 1))
            else:
                todo.appendleft((source, count))
    return away
