"""Defects in what is said of the person: where he is, what he needs, what can reach him, why he works live."""

from __future__ import annotations

from collections.abc import Iterator

from tests.proof.edits import act_of, changed, following, group_of, less, replaced, steps_of, with_group
from tests.proof.scope import Edit, Mutator, Scope, instead
from tests.proof.tables import Data

NO_WORK = ("outcome", "end", "run")


def _drop_from_live_work(key: str) -> Mutator:
    def mutate(scope: Scope) -> Iterator[Edit]:
        for step in _live(scope):
            yield instead(scope, step, {**step, "live-work": less(step["live-work"], key)})

    return mutate


def _drop_live_work(scope: Scope) -> Iterator[Edit]:
    for step in _live(scope):
        yield instead(scope, step, less(step, "live-work"))


def _drop_live_hazards(scope: Scope) -> Iterator[Edit]:
    """All hazards of a live step are left out, those of its group too."""
    for step in _live(scope):
        group = group_of(scope.groups, step)
        bare = replaced([less(group, "hazards")], step, less(step, "hazards"))
        yield Edit(step["id"], with_group(scope.groups, group, bare[0]))


def _live(scope: Scope) -> Iterator[Data]:
    return (step for step in scope.steps if "live-work" in step)


def _late_hazards(scope: Scope) -> Iterator[Edit]:
    """The hazards of a step are named at the step after it."""
    for step in scope.steps:
        name = following(scope.groups, step)
        if step.get("hazards") and name:
            groups = replaced(scope.groups, step, less(step, "hazards"))
            after = next(one for one in steps_of(groups) if one["id"] == name)
            named = [*(after.get("hazards") or []), *step["hazards"]]
            yield Edit(step["id"], replaced(groups, after, {**after, "hazards": list(dict.fromkeys(named))}))


def _drop_out_of_reach(scope: Scope) -> Iterator[Edit]:
    for holder, groups_with in _holders(scope):
        for source in holder.get("out-of-reach") or {}:
            rest = less(holder["out-of-reach"], source)
            yield groups_with({**holder, "out-of-reach": rest} if rest else less(holder, "out-of-reach"))


class _Placed:
    """Puts a changed group or step back in its place."""

    def __init__(self, scope: Scope, holder: Data) -> None:
        self._scope = scope
        self._holder = holder

    def __call__(self, new: Data) -> Edit:
        groups = self._scope.groups
        if "steps" in self._holder:
            return Edit(f"group {self._holder['group']}", with_group(groups, self._holder, new))
        return Edit(self._holder["id"], replaced(groups, self._holder, new))


def _holders(scope: Scope) -> Iterator[tuple[Data, _Placed]]:
    """Each group and each step, with what puts a changed one in its place."""
    for holder in (*scope.groups, *scope.steps):
        yield holder, _Placed(scope, holder)


def _changing_need(old: str, new: str) -> Mutator:
    def mutate(scope: Scope) -> Iterator[Edit]:
        for holder, groups_with in _holders(scope):
            for source, need in (holder.get("energy") or {}).items():
                if need == old:
                    yield groups_with(changed(holder, ("energy", source), new))

    return mutate


def _claim_outside(scope: Scope) -> Iterator[Edit]:
    """The person is said to stand outside although hands are in: only the author knows."""
    for holder, groups_with in _holders(scope):
        if holder.get("person") in ("hands-in", "enclosure-open"):
            yield groups_with({**holder, "person": "outside"})


def _reach_in(person: str) -> Mutator:
    """A step that is done outside is done with hands in, or before an open enclosure."""

    def mutate(scope: Scope) -> Iterator[Edit]:
        for step in scope.steps:
            where = step.get("person") or group_of(scope.groups, step).get("person")
            if where == "outside" and act_of(step) not in NO_WORK:
                yield instead(scope, step, {**step, "person": person})

    return mutate


MUTATORS: dict[str, Mutator] = {
    "drop live work": _drop_live_work,
    "drop hazards of live work": _drop_live_hazards,
    "drop reason of live work": _drop_from_live_work("reason"),
    "drop qualification of live work": _drop_from_live_work("qualification"),
    "hazard one step late": _late_hazards,
    "drop out-of-reach": _drop_out_of_reach,
    "need weakened to any": _changing_need("verified", "any"),
    "need weakened to released": _changing_need("verified", "released"),
    "live claimed of what is dead": _changing_need("verified", "live"),
    "dead claimed of what is live": _changing_need("live", "verified"),
    "outside claimed of hands in": _claim_outside,
    "hands in where it was outside": _reach_in("hands-in"),
    "enclosure open where it was outside": _reach_in("enclosure-open"),
}
