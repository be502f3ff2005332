"""Small changes to the steps of a procedure; the original is never touched, and what stays the same is shared."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any, NamedTuple

from tests.proof.stations import ACTS
from tests.proof.tables import Data

Groups = list[Data]
NEXT = "next"
_LIMITED = ("go", "after-that")


class Link(NamedTuple):
    """Where a step leads on: the keys under which the target stands in the step, and the target."""

    step: str
    keys: tuple[str | int, ...]
    target: str


def act_of(step: Data) -> str:
    """The act that a step begins with."""
    return next(act for act in ACTS if act in step)


def steps_of(groups: Groups) -> list[Data]:
    """All steps in the order of the page."""
    return [step for group in groups for step in group["steps"]]


def group_of(groups: Groups, step: Data) -> Data:
    """The group in which a step stands."""
    return next(group for group in groups if any(one is step for one in group["steps"]))


def following(groups: Groups, step: Data) -> str | None:
    """The step that stands next on the page."""
    steps = steps_of(groups)
    place = next(number for number, one in enumerate(steps) if one is step)
    return str(steps[place + 1]["id"]) if place + 1 < len(steps) else None


def onward(groups: Groups, step: Data) -> str | None:
    """The step to which a step leads when all goes well; the first outcome of a sequence is the good one."""
    outcomes = step.get("outcomes") or {}
    target = step.get("go", next(iter(outcomes.values()), NEXT))
    return following(groups, step) if target == NEXT else target


def replaced(groups: Groups, step: Data, *new: Data) -> Groups:
    """Put other steps in the place of one; a group without steps falls away."""
    changed = [
        {**group, "steps": [other for one in group["steps"] for other in (new if one is step else (one,))]}
        if any(one is step for one in group["steps"])
        else group
        for group in groups
    ]
    return [group for group in changed if group["steps"]]


def with_group(groups: Groups, group: Data, new: Data) -> Groups:
    """Put another group in the place of one."""
    return [new if one is group else one for one in groups]


def relinked(groups: Groups, change: Callable[[str], str]) -> Groups:
    """Change where links lead; links that stay are left as they were."""
    return [{**group, "steps": [_relinked(step, change) for step in group["steps"]]} for group in groups]


def _relinked(step: Data, change: Callable[[str], str]) -> Data:
    for link in links(step):
        target = change(link.target)
        if target != link.target:
            step = with_link(step, link, target)
    return step


def links(step: Data) -> Iterator[Link]:
    """The written links of a step."""
    for keys, holder in _holders(step):
        for key in _LIMITED:
            if key in holder:
                yield Link(step["id"], (*keys, key), holder[key])
    if "not-proved" in step:
        yield Link(step["id"], ("not-proved",), step["not-proved"])
    for ending, target in (step.get("outcomes") or {}).items():
        yield Link(step["id"], ("outcomes", ending), target)


def _holders(step: Data) -> Iterator[tuple[tuple[str | int, ...], Data]]:
    yield (), step
    for key in ("answers", "bands"):
        for number, exit in enumerate(step.get(key, ())):
            yield (key, number), exit
    for key in ("cannot-tell", "not-available"):
        if key in step:
            yield (key,), step[key]


def with_link(step: Data, link: Link, target: str) -> Data:
    """Let a link of a step lead elsewhere."""
    new: Data = changed(step, link.keys, target)
    return new


def changed(data: Any, keys: tuple[str | int, ...], value: Any) -> Any:
    """Put a value in the place that some keys lead to."""
    first, *rest = keys
    inner = value if not rest else changed(data[first], tuple(rest), value)
    if isinstance(data, list):
        return [inner if number == first else one for number, one in enumerate(data)]
    return {**data, first: inner}


def less(data: Mapping[str, Any], *keys: str) -> Data:
    """A group of keys without some of them."""
    return {key: value for key, value in data.items() if key not in keys}


def removed(groups: Groups, step: Data) -> Groups | None:
    """Take a step out; whatever led to it leads on to where it led. None for a last step, which leads nowhere."""
    target = onward(groups, step)
    if target is None or target == step["id"]:
        return None
    before = groups if target == following(groups, step) else _led_on(groups, step, target)
    kept = next(one for one in steps_of(before) if one["id"] == step["id"])
    return relinked(replaced(before, kept), lambda name: target if name == step["id"] else name)


def _led_on(groups: Groups, step: Data, target: str) -> Groups:
    """Let the step before, where it leads on to the next one, lead to a target instead."""
    steps = steps_of(groups)
    place = next(number for number, one in enumerate(steps) if one is step)
    if place == 0:
        return groups
    before = steps[place - 1]
    new = _relinked(before, lambda name: target if name == NEXT else name)
    if "go" not in before and act_of(before) not in ("ask", "read", "run", "outcome", "end"):
        new = {**new, "go": target}
    return replaced(groups, before, new)


def exchanged(groups: Groups, one: Data, other: Data) -> Groups:
    """Let two steps change places; what led to the one leads to the other."""
    names = {one["id"]: other["id"], other["id"]: one["id"]}
    gap = {"id": "\0"}
    swapped = replaced(replaced(replaced(groups, one, gap), other, one), gap, other)
    return relinked(swapped, lambda name: names.get(name, name))
