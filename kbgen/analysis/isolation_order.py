"""The order in which an energy source is brought under control: published orders, or the site's own.

OSHA 29 CFR 1910.147(d): (2) shut down, (3) isolate, (4) lock, (5) release stored energy, (6) verify.
NFPA 70E 120.5: (2) interrupt the load and open, (4) and (5) release stored energy, (6) lock, (7) test.
EN 50110-1: disconnect, secure, verify; what is stored is released between disconnecting and verifying.
The standards disagree on whether the lock comes before the release, so a knowledge base names the one it follows.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from kbgen.analysis.hold import Hold
from kbgen.model.tables import EnergySource, Site
from kbgen.model.words import Act, EnergyKind, IsolationProfile

# Each act with those that must be done before it.
Order = Mapping[Act, tuple[Act, ...]]

# Where opening an isolation point under load draws an arc or leaves a machine half moved.
_RUNNING = frozenset(
    {
        EnergyKind.ELECTRICAL,
        EnergyKind.SECOND_SUPPLY,
        EnergyKind.PNEUMATIC,
        EnergyKind.HYDRAULIC,
        EnergyKind.KINETIC,
    }
)


def _chain(*acts: Act) -> Order:
    return {act: acts[:number] for number, act in enumerate(acts)}


_PUBLISHED: Mapping[IsolationProfile, Order] = {
    IsolationProfile.OSHA: _chain(Act.SHUT_DOWN, Act.ISOLATE, Act.LOCK, Act.RELEASE, Act.PROVE),
    IsolationProfile.NFPA: _chain(Act.SHUT_DOWN, Act.ISOLATE, Act.RELEASE, Act.LOCK, Act.PROVE),
    IsolationProfile.EN: {
        Act.LOCK: (Act.ISOLATE,),
        Act.RELEASE: (Act.ISOLATE,),
        Act.PROVE: (Act.ISOLATE, Act.LOCK, Act.RELEASE),
    },
}


def order_of(site: Site | None) -> Order:
    """The order that a knowledge base follows; without a site block that of OSHA 29 CFR 1910.147(d)."""
    profile = site.isolation_order if site else IsolationProfile.OSHA
    if profile is IsolationProfile.OWN and site:
        return _chain(*site.own_order)
    return _PUBLISHED[profile]


def left_out(act: Act, order: Order, source: EnergySource, hold: Hold, points: frozenset[str]) -> Iterator[Act]:
    """Yield the acts that must come before another one and have not been done.

    ``points`` are the isolation points that matter for it. A source without points, or one of which nothing is left
    to hold, needs neither isolation nor lock, and nothing has to be shut down for it.
    """
    for earlier in order.get(act, ()):
        if _applies(earlier, source, hold) and not _is_done(earlier, hold, points):
            yield earlier


def _applies(act: Act, source: EnergySource, hold: Hold) -> bool:
    if act in (Act.RELEASE, Act.PROVE):
        return True
    if not source.points or hold.emptied:
        return False
    return act is not Act.SHUT_DOWN or source.kind in _RUNNING


def _is_done(act: Act, hold: Hold, points: frozenset[str]) -> bool:
    done = {
        Act.SHUT_DOWN: hold.stopped,
        Act.ISOLATE: points <= hold.opened,
        Act.LOCK: points <= hold.locked,
        Act.RELEASE: hold.released,
        Act.PROVE: hold.proved,
    }
    return done[act]
