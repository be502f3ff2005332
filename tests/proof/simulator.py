"""The outside judge: a technician who does exactly what a procedure says, in a small physical world.

It reads the files by itself and shares no code with kbgen. Energy sources and temporary changes develop each by
itself, because no answer depends on them; so they are watched one after the other along all paths.
"""

from __future__ import annotations

from collections.abc import Iterator

from tests.proof.danger import Danger, Kind
from tests.proof.dead_ends import stuck
from tests.proof.energy import SourceWatch
from tests.proof.open_items import ChangeWatch
from tests.proof.readings import unreadable
from tests.proof.stations import Route, lay_out
from tests.proof.tables import Data, Tables, listed
from tests.proof.time_limits import too_late
from tests.proof.walking import Walker, Watch


def dangers(procedure: Data, tables: Tables) -> list[Danger]:
    """All dangers of a procedure, each with the way on which a person is exposed to it."""
    route = lay_out(procedure, tables)
    found = [*stuck(route), *unreadable(route), *_bare_live_work(route)]
    if not any(danger.kind is Kind.ENDLESS for danger in found):
        found += too_late(route, tables)
    for watch in watches(procedure, route, tables):
        found += Walker(route, watch).dangers()
    return found


def watches(procedure: Data, route: Route, tables: Tables) -> Iterator[Watch]:
    """What has to be watched in a procedure."""
    here = listed(procedure["before"]["energy"])
    for source in route.sources:
        yield SourceWatch(source, tables, source in here)
    for change in listed(procedure["temporary-changes"]):
        yield ChangeWatch(change)


def _bare_live_work(route: Route) -> Iterator[Danger]:
    for key, station in route.stations.items():
        if station.live_work is not None and not station.is_sound_live_work:
            yield Danger(
                Kind.BARE_LIVE_WORK,
                key,
                key,
                "live work without reason, qualification or hazard",
                ("start", "...", key),
            )
