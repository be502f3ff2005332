"""What a mutator gets to see: the steps of a procedure or of a shared sequence, with the tables they stand in."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import NamedTuple

from tests.proof.edits import Groups, Link, act_of, links, removed, replaced, steps_of, with_link
from tests.proof.stations import ENERGY_ACTS
from tests.proof.tables import Data, Source, Tables

HOLDING = frozenset({"shut-down", "isolate", "lock", "release", "prove"})


@dataclass(frozen=True)
class Scope:
    """The steps, how the names of energy sources in them are bound, and the temporary changes that they make."""

    groups: Groups
    tables: Tables
    binding: dict[str, str]
    changes: tuple[Data, ...] = ()

    @property
    def steps(self) -> list[Data]:
        """All steps in the order of the page."""
        return steps_of(self.groups)

    def acting(self, *acts: str) -> Iterator[Data]:
        """The steps with one of some acts."""
        return (step for step in self.steps if act_of(step) in acts)

    def source(self, step: Data) -> Source | None:
        """The energy source on which a step works."""
        name = step.get("source") if act_of(step) in ENERGY_ACTS else step.get("discharges")
        return self.tables.sources.get(self.binding.get(str(name), str(name)))

    def runs(self, *acts: str) -> Iterator[Data]:
        """The runs of sequences in which some act is done."""
        for step in self.acting("run"):
            sequence = self.tables.sequences.get(step["run"])
            if sequence and any(act_of(one) in acts for one in steps_of(sequence["steps"])):
                yield step


class Edit(NamedTuple):
    """Steps with one defect, and the step at which it was made."""

    place: str
    groups: Groups


Mutator = Callable[[Scope], Iterator[Edit]]


def without(scope: Scope, step: Data) -> Iterator[Edit]:
    """The steps without one of them."""
    groups = removed(scope.groups, step)
    if groups:
        yield Edit(step["id"], groups)


def instead(scope: Scope, step: Data, *new: Data) -> Edit:
    """The steps with others in the place of one."""
    return Edit(step["id"], replaced(scope.groups, step, *new))


def led(scope: Scope, step: Data, link: Link, target: str) -> Edit:
    """The steps with one link that leads elsewhere."""
    place = f"{step['id']} {'.'.join(map(str, link.keys))}"
    return Edit(place, replaced(scope.groups, step, with_link(step, link, target)))


def all_links(scope: Scope) -> Iterator[tuple[Data, Link]]:
    """All written links, each with its step."""
    return ((step, link) for step in scope.steps for link in links(step))


def dropping(act: str) -> Mutator:
    """A mutator that leaves out each step with an act."""

    def mutate(scope: Scope) -> Iterator[Edit]:
        for step in scope.acting(act):
            yield from without(scope, step)

    return mutate
