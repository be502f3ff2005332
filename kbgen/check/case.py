"""What a check gets to see."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property

from kbgen.analysis.digest import Digest
from kbgen.analysis.energy import Followed, follow
from kbgen.analysis.needs import Needs, needs_at
from kbgen.analysis.open_items import OpenItems, open_changes
from kbgen.model.decode import Decoded
from kbgen.model.procedure import Procedure
from kbgen.model.shared import Shared
from kbgen.route.route import Route
from kbgen.route.trace import trace_sequence
from kbgen.route.unfold import Walk, unfold


@dataclass(frozen=True)
class Case:
    """One procedure with its route and the shared tables.

    ``fit_pictures`` names files of pictures that were found fit to be shown before and are still the same.
    """

    decoded: Decoded[Procedure]
    route: Route
    shared: Shared
    read_picture: Callable[[str], bytes]
    fit_pictures: frozenset[str] = frozenset()

    @property
    def procedure(self) -> Procedure:
        """The procedure as it was written."""
        return self.decoded.record

    @cached_property
    def walk(self) -> Walk:
        """The route with the shared sequences folded out."""
        return unfold(self.route)

    @cached_property
    def followed(self) -> tuple[Followed, ...]:
        """The energy sources of the procedure, and any other that a step acts on, followed along all paths."""
        acted_on = (place.source for place in self.walk.places.values() if place.source)
        names = dict.fromkeys((*map(str, self.procedure.before.energy), *acted_on))
        return follow(self.walk, names, self.shared.energy)

    @cached_property
    def needs(self) -> Mapping[str, Needs]:
        """What each step needs of the energy sources."""
        return {key: needs_at(self.route, place) for key, place in self.walk.places.items()}

    @cached_property
    def changes(self) -> OpenItems[str]:
        """The temporary changes that can be open at each step."""
        return open_changes(self.walk, map(str, (one.id for one in self.procedure.temporary_changes)))


@dataclass(frozen=True)
class TablesCase:
    """The shared tables."""

    shared: Shared

    @cached_property
    def sequences(self) -> tuple[Route, ...]:
        """The routes of the shared sequences, each by itself."""
        return tuple(trace_sequence(one, self.shared) for one in self.shared.sequences.values())


@dataclass(frozen=True)
class Overview:
    """The knowledge base as a whole: the shared tables and a digest of each procedure, by id.

    ``complete`` tells that every procedure could be read; otherwise a name may be missing only because its file is
    broken.
    """

    shared: Shared
    digests: tuple[Digest, ...]
    as_of: datetime.date | None
    complete: bool

    @cached_property
    def by_id(self) -> Mapping[str, Digest]:
        """Digests by procedure id; the first where an id is given twice."""
        found: dict[str, Digest] = {}
        for digest in self.digests:
            found.setdefault(digest.id, digest)
        return found
