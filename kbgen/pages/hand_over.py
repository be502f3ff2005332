"""What a temporary change means where it is made, and what is still open where somebody else takes the job over."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from kbgen.analysis.open_items import HungLock, OpenItem, OpenItems, hung_locks, open_changes
from kbgen.model.procedure import Procedure, TemporaryChange
from kbgen.model.shared import Shared
from kbgen.model.steps import Change, Finish
from kbgen.model.values import StepRef
from kbgen.model.words import Result
from kbgen.pages import wording
from kbgen.pages.line import Line
from kbgen.route.route import Place, Route
from kbgen.route.unfold import Walk

_HANDS_OVER = (Result.ORDER_PART, Result.ESCALATE)
_MAY_BE = "May be {}, depending on your way here: "


@dataclass(frozen=True)
class HandOver:
    """The open items of one procedure in words; ``places`` are those of the page, by step."""

    declared: Mapping[str, TemporaryChange]
    changes: OpenItems[str]
    locks: OpenItems[HungLock]
    places: Mapping[str, Place]
    shared: Shared
    inline: Callable[[str], Markup]

    def name(self, change: str) -> str:
        """What is changed, in a few words."""
        return str(self.declared[change].what) if change in self.declared else change

    def change_lines(self, step: Change) -> Iterator[Line]:
        """What whoever makes a change must know before: what it takes away, who may allow it, what to go back to."""
        yield Line("Open item", Markup.escape(self.name(step.opens)))
        change = self.declared.get(step.opens)
        if change is None:
            return
        yield Line("Protection lost", self.inline(change.protection_lost))
        yield Line("Authorised by", Markup.escape(change.authorised_by))
        yield Line("Back to", Markup.escape(change.original))
        if change.checked_at:
            yield Line("Unit fits", Markup.escape(f"as {self._step(change.checked_at)} must have shown"))
        if change.loses is not None:
            yield Line("Can be lost", Markup.escape(self._lost(change)))

    def _lost(self, change: TemporaryChange) -> str:
        lost = wording.sentence_case(" and ".join(wording.LOSS[one] for one in change.loses or ()))
        if not lost or not change.recorded_at:
            return lost or "Nothing"
        return f"{lost}, unless saved by {self._step(change.recorded_at)}"

    def outcome_lines(self, place: Place) -> Iterator[Line]:
        """What is still open, or may be, at an outcome at which somebody else takes over."""
        if not isinstance(place.step, Finish) or place.step.result not in _HANDS_OVER:
            return
        changes, locks = self.changes.open_at(place.key), self.locks.open_at(place.key)
        items = [*map(self._open_change, changes), *map(self._hung_lock, locks)]
        if items:
            rows = Markup("").join(Markup("<li>{}</li>").format(one) for one in items)
            yield Line("Still open", Markup("<ul>{}</ul>").format(rows))
        if locks:
            yield Line("Locks", Markup("Hand them over as the site's lockout procedure says."))

    def _open_change(self, one: OpenItem[str]) -> Markup:
        change = self.declared[one.item]
        return Markup("{}<strong>{}</strong> Meanwhile: {} Back to: {} May be authorised by: {}").format(
            "" if one.always else _MAY_BE.format("open"),
            _sentence(Markup.escape(change.what)),
            _sentence(self.inline(change.protection_lost)),
            _sentence(Markup.escape(change.original)),
            _sentence(Markup.escape(change.authorised_by)),
        )

    def _hung_lock(self, one: OpenItem[HungLock]) -> Markup:
        source, point = self.shared.energy.get(one.item.source), self.shared.points.get(one.item.point)
        of = str(source.name) if source else one.item.source
        your = "Your" if one.always else _MAY_BE.format("on") + "your"
        if point is None:
            return Markup("{} lock and tag on <strong>{}</strong>.").format(your, of)
        return Markup("{} lock and tag at <strong>{}</strong> ({}).").format(your, point.name, of)

    def _step(self, name: StepRef) -> str:
        place = self.places.get(name)
        return f"step {place.number}" if place else f"step “{name}”"


def hand_over(
    procedure: Procedure, route: Route, walk: Walk, shared: Shared, inline: Callable[[str], Markup]
) -> HandOver:
    """Follow the temporary changes and locks of a procedure; ``inline`` renders its prose."""
    declared = {str(change.id): change for change in procedure.temporary_changes}
    return HandOver(declared, open_changes(walk, declared), hung_locks(walk, shared), route.places, shared, inline)


def _sentence(words: Markup) -> Markup:
    return words if words.endswith((".", "!", "?")) else words + "."
