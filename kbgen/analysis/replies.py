"""How likely each answer of a step is, given the cause that is there: what the author said, and even odds beyond it.

One cause of the procedure is taken to be there at a time. What is reckoned with:

- An answer that confirms the cause gets the certainty with which the step finds it, 1 where none is stated.
- An answer speaks against the cause if it rules it out, if it confirms another one, or if it leads, with no further
  question or repair, to an outcome that does not go with it: fixed, another procedure, or one that names other causes.
- Where a step finds the cause but no answer confirms it, while one speaks against it or is the accepted band of the
  reading, the certainty goes to the others.
- A step that finds other causes but not this one finds none: its answer is the accepted band of the reading, or one
  that rules causes out.
- What is left is spread evenly over the answers that say nothing. Of these, the answers that break the job off (a call
  for help that names no cause, for example because a permission is missing) get something only if there is no other;
  so do, after that, those that lead straight to a repair of other causes only.
- Where a stated certainty leaves something and no answer says nothing, the cause was missed: the answers that speak
  against it share it, but those that confirm another cause only if there is no other.
- ``cannot-tell``, ``not-available`` and a failed proof get something only if no other answer can.

Once the cause is gone, no answer confirms a cause, observes a symptom or breaks the job off; a reading shows its
accepted band, and a question is answered in the way that leads to an outcome fixed over the fewest further questions
and repairs.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, eq=False)
class Reply:
    """One answer or band of a step.

    ``ends_with`` holds the causes that go with the outcome it leads to with no question or repair between, None where
    there is none or it says nothing of causes; ``breaks_off`` tells that this is a call for help that names no cause.
    ``repairs`` holds the causes that are removed before any question, None where nothing is. ``away`` counts the
    questions and repairs between it and an outcome fixed, None where there is no way to one.
    """

    confirms: frozenset[str] = frozenset()
    rules_out: frozenset[str] = frozenset()
    shows_symptom: bool = False
    accepted: bool = False
    last_resort: bool = False
    ends_with: frozenset[str] | None = None
    breaks_off: bool = False
    repairs: frozenset[str] | None = None
    away: int | None = None

    @property
    def reassures(self) -> bool:
        """Tell whether it is what a check shows that finds nothing."""
        return self.accepted or bool(self.rules_out)


Shares = tuple[float, ...]


def shares_while_there(cause: str, replies: Sequence[Reply], finds: Mapping[str, float]) -> Shares:
    """Chance of each answer while the cause is there; ``finds`` is what the step finds, with its certainty."""
    finding = [one for one in replies if cause in one.confirms] or _silent_finding(cause, replies, finds)
    found = finds.get(cause, 1.0) if finding else 0.0
    left = _left(cause, replies, finds, finding)
    pairs = zip(_evenly(found, finding, replies), _evenly(1 - found, left, replies), strict=True)
    return tuple(finds_it + misses_it for finds_it, misses_it in pairs)


def shares_when_gone(replies: Sequence[Reply]) -> Shares:
    """Chance of each answer when no cause is left."""
    quiet = _preferred(_proper(replies) or replies, lambda one: not (one.confirms or one.shows_symptom))
    quiet = _preferred(quiet, lambda one: not one.breaks_off)
    accepted = [one for one in quiet if one.accepted]
    return _evenly(1.0, accepted or _nearest(quiet), replies)


def even_shares(replies: Sequence[Reply]) -> Shares:
    """Chance of each way on where nothing is asked: a proof succeeds."""
    return _evenly(1.0, _proper(replies) or replies, replies)


def _evenly(share: float, among: Sequence[Reply], replies: Sequence[Reply]) -> Shares:
    chosen = set(map(id, among))
    return tuple(share / len(among) if id(one) in chosen else 0.0 for one in replies)


def _silent_finding(cause: str, replies: Sequence[Reply], finds: Mapping[str, float]) -> list[Reply]:
    """The answers that stand for a cause that the step finds although none confirms it."""
    if cause not in finds:
        return []
    stands = [one for one in _proper(replies) if not (one.accepted or _is_against(cause, one))]
    return stands if len(stands) < len(_proper(replies)) else []


def _left(
    cause: str, replies: Sequence[Reply], finds: Mapping[str, float], finding: Sequence[Reply]
) -> Sequence[Reply]:
    """The answers that share what the finding leaves."""
    others = [one for one in _proper(replies) if one not in finding]
    silent: Sequence[Reply] = [one for one in others if not _is_against(cause, one)]
    if not finding and cause not in finds and (finds or any(one.confirms for one in replies)):
        silent = [one for one in others if one.reassures and not _contradicts(cause, one)] or silent
    silent = _preferred(silent, lambda one: not one.breaks_off)
    silent = _preferred(silent, lambda one: one.repairs is None or cause in one.repairs)
    missed = _preferred(others, lambda one: not one.confirms) if finding else ()
    last = [one for one in replies if one.last_resort]
    return silent or missed or last or replies


def _contradicts(cause: str, reply: Reply) -> bool:
    return cause not in reply.confirms and (bool(reply.confirms) or cause in reply.rules_out)


def _is_against(cause: str, reply: Reply) -> bool:
    leads_away = reply.ends_with is not None and cause not in reply.ends_with | reply.confirms
    return leads_away or _contradicts(cause, reply)


def _nearest(replies: Sequence[Reply]) -> Sequence[Reply]:
    nearest = min((one.away for one in replies if one.away is not None), default=None)
    return [one for one in replies if one.away == nearest]


def _preferred(replies: Sequence[Reply], holds: Callable[[Reply], bool]) -> Sequence[Reply]:
    return [one for one in replies if holds(one)] or replies


def _proper(replies: Sequence[Reply]) -> list[Reply]:
    return [one for one in replies if not one.last_resort]
