"""Defects in how steps lead on: past an isolation, nowhere, round in circles."""

from __future__ import annotations

import random
from collections.abc import Iterator

from tests.proof.edits import Groups, act_of, changed, following, less, links, onward, relinked, replaced, with_link
from tests.proof.scope import HOLDING, Edit, Mutator, Scope, all_links, instead, led
from tests.proof.tables import Data

SEED = 20261125


def _past_isolation(scope: Scope) -> Iterator[Edit]:
    """A branch that led to an isolation leads to the step after it."""
    after = {**_behind_runs(scope), **_behind_acts(scope)}
    for step, link in all_links(scope):
        target = following(scope.groups, step) if link.target == "next" else link.target
        if target in after and after[target] not in (step["id"], None):
            yield led(scope, step, link, str(after[target]))


def _behind_runs(scope: Scope) -> dict[str, str | None]:
    return {step["id"]: onward(scope.groups, step) for step in scope.runs("isolate", "prove")}


def _behind_acts(scope: Scope) -> dict[str, str | None]:
    """For each first act of a row of acts that hold energy off the step behind the row."""
    steps, behind = scope.steps, {}
    for place, step in enumerate(steps):
        if act_of(step) in HOLDING:
            row = place
            while row < len(steps) and (act_of(steps[row]) in HOLDING or "discharges" in steps[row]):
                row += 1
            behind[step["id"]] = steps[row]["id"] if row < len(steps) else None
    return behind


def _back_past_isolation(scope: Scope) -> Iterator[Edit]:
    """A branch after energy came back leads to a step with hands in, without isolating again."""
    reached = [step["id"] for group in scope.groups for step in group["steps"] if _hands_in(group, step)]
    back = [number for number, step in enumerate(scope.steps) if step in list(scope.runs("energise"))]
    for step in scope.steps[back[0] + 1 :] if back and reached else []:
        for link in links(step):
            if act_of(step) in ("ask", "read") and link.target != reached[0]:
                yield led(scope, step, link, reached[0])


def _hands_in(group: Data, step: Data) -> bool:
    return step.get("person", group.get("person")) == "hands-in" and act_of(step) not in ("outcome", "run")


def _misspelt(scope: Scope) -> Iterator[Edit]:
    for step in scope.steps:
        for link in list(links(step))[:1]:
            yield led(scope, step, link, f"{link.target}s")


def _wrong_target(scope: Scope) -> Iterator[Edit]:
    chance = random.Random(SEED)
    names = [step["id"] for step in scope.steps]
    for step, link in all_links(scope):
        yield led(scope, step, link, chance.choice([name for name in names if name not in (link.target, step["id"])]))


def _swapped_answers(scope: Scope) -> Iterator[Edit]:
    """The first two answers of a question lead where the other one should."""
    for step, key in _branching(scope):
        one, other = step[key][0]["go"], step[key][1]["go"]
        if one != other:
            yield instead(scope, step, changed(changed(step, (key, 0, "go"), other), (key, 1, "go"), one))


def _branching(scope: Scope) -> Iterator[tuple[Data, str]]:
    for step in scope.acting("ask", "read"):
        yield step, "answers" if act_of(step) == "ask" else "bands"


def _drop_answer(scope: Scope) -> Iterator[Edit]:
    for step in scope.acting("ask"):
        for number in range(len(step["answers"])):
            yield instead(scope, step, {**step, "answers": _except(step["answers"], number)})


def _except(items: list[Data], number: int) -> list[Data]:
    return [*items[:number], *items[number + 1 :]]


def _drop_cannot_tell(scope: Scope) -> Iterator[Edit]:
    for step in scope.acting("ask", "read"):
        yield instead(scope, step, less(step, "cannot-tell", "not-available"))


def _orphan(scope: Scope) -> Iterator[Edit]:
    """Whatever led to a step leads to the one after it; the step is still there."""
    for step in scope.steps[1:]:
        target = onward(scope.groups, step)
        if target is not None and act_of(step) not in ("outcome", "end"):
            yield Edit(step["id"], _bypassed(scope, step, target))


def _bypassed(scope: Scope, step: Data, target: str) -> Groups:
    number = next(place for place, one in enumerate(scope.steps) if one is step)
    before = scope.steps[number - 1]
    groups = scope.groups
    if "go" not in before and act_of(before) not in ("ask", "read", "run", "outcome", "end"):
        groups = replaced(groups, before, {**before, "go": step["id"]})
    elif any(link.target == "next" for link in links(before)):
        groups = replaced(groups, before, next(_explicit(before, step["id"])))
    return relinked(groups, lambda name: target if name == step["id"] else name)


def _explicit(step: Data, target: str) -> Iterator[Data]:
    for link in links(step):
        if link.target == "next":
            step = with_link(step, link, target)
    yield step


def _dead_end(scope: Scope) -> Iterator[Edit]:
    """The last step is no outcome."""
    last = scope.steps[-1]
    if act_of(last) == "outcome":
        kept: Data = {key: last[key] for key in ("id", "person", "energy", "hazards") if key in last}
        yield instead(scope, last, {"do": last["outcome"], **kept})


def _trap(scope: Scope) -> Iterator[Edit]:
    """A question is asked again whatever the answer is."""
    for step in scope.acting("ask", "read"):
        yield instead(scope, step, _all_to(step, step["id"]))


def _all_to(step: Data, target: str) -> Data:
    for link in links(step):
        step = with_link(step, link, target)
    return step


def _ask_for_ever(scope: Scope) -> Iterator[Edit]:
    """One answer asks the question again, with no limit."""
    for step, key in _branching(scope):
        yield instead(
            scope, step, changed(step, (key, 0), {**less(step[key][0], "at-most", "after-that"), "go": step["id"]})
        )


def _drop_from_limits(*keys: str) -> Mutator:
    def mutate(scope: Scope) -> Iterator[Edit]:
        for step, link in all_links(scope):
            if link.keys[-1] == "after-that":
                holder = _inside(step, link.keys[:-1])
                bare = less(holder, *keys)
                yield instead(scope, step, changed(step, link.keys[:-1], bare) if link.keys[:-1] else bare)

    return mutate


def _inside(step: Data, keys: tuple[str | int, ...]) -> Data:
    found = step
    for key in keys:
        found = found[key]  # type: ignore[index]
    return found


MUTATORS: dict[str, Mutator] = {
    "jump past an isolation": _past_isolation,
    "back without isolating again": _back_past_isolation,
    "misspelt target": _misspelt,
    "wrong target": _wrong_target,
    "swapped answers": _swapped_answers,
    "drop answer": _drop_answer,
    "drop cannot-tell": _drop_cannot_tell,
    "orphan step": _orphan,
    "dead end": _dead_end,
    "trap": _trap,
    "ask for ever": _ask_for_ever,
    "drop limit of a loop": _drop_from_limits("at-most", "after-that"),
    "drop way on of a limit": _drop_from_limits("after-that"),
}
