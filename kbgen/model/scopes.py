"""Which names are local to which record; all others belong to the whole knowledge base."""

from __future__ import annotations

from typing import NamedTuple

from kbgen.model.procedure import Procedure
from kbgen.model.record import Record
from kbgen.model.steps import Ask, Read
from kbgen.model.tables import Alarm, Family, SharedSequence
from kbgen.model.values import Kind, Text

ENCLOSED: dict[type[Record], frozenset[Kind]] = {
    Procedure: frozenset({Kind.STEP, Kind.CAUSE, Kind.SYMPTOM, Kind.CHANGE, Kind.PICTURE, Kind.SET_UP}),
    SharedSequence: frozenset(
        {Kind.STEP, Kind.ENDING, Kind.ENERGY, Kind.CHANGE, Kind.PICTURE, Kind.CAUSE, Kind.SET_UP}
    ),
    Family: frozenset({Kind.VARIANT}),
    Alarm: frozenset({Kind.STAGE}),
    Ask: frozenset({Kind.ANSWER}),
    Read: frozenset({Kind.ANSWER}),
}


class Mention(NamedTuple):
    """A name or a reference: what it stands for, its text with its place, and the record that it is local to.

    ``owner`` is 0 for what belongs to the whole knowledge base; otherwise it only tells records of one file apart.
    """

    kind: Kind
    text: Text
    owner: int
