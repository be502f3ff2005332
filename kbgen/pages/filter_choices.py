"""What the results of a search can be narrowed to: the families of equipment and the displays."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from kbgen.analysis.digest import Digest
from kbgen.model.shared import Shared
from kbgen.pages import addresses


@dataclass(frozen=True)
class Choice:
    """A family or display; the search knows it by its name, addresses by its id. ``count`` counts its procedures."""

    id: str
    name: str
    href: str
    count: int


def family_choices(shared: Shared, digests: Iterable[Digest]) -> tuple[Choice, ...]:
    """The families in the order of their names."""
    counts = Counter(digest.family for digest in digests)
    return _by_name(
        Choice(str(one.id), str(one.name), addresses.family(one.id), counts[one.id])
        for one in shared.families.values()
    )


def display_choices(shared: Shared, digests: Iterable[Digest]) -> tuple[Choice, ...]:
    """The displays in the order of their names."""
    counts = Counter(display for digest in digests for display in {code.display for code in digest.codes})
    return _by_name(
        Choice(str(one.id), str(one.name), addresses.display(one.id), counts[one.id])
        for one in shared.displays.values()
    )


def _by_name(choices: Iterable[Choice]) -> tuple[Choice, ...]:
    return tuple(sorted(choices, key=lambda one: (one.name.lower(), one.id)))
