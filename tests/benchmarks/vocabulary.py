"""Words that the synthetic procedures are made of."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Family:
    """A family of machines; ``letter`` begins its codes."""

    id: str
    name: str
    letter: str
    about: str


@dataclass(frozen=True)
class Trouble:
    """What goes wrong, as it follows the name of a part, and in two words."""

    text: str
    short: str


FAMILIES = (
    Family("belt-conveyor", "belt conveyor", "B", "Carries crates on a flat belt with a driven drum at its head."),
    Family("bin-tipper", "bin tipper", "T", "Empties field bins onto the line."),
    Family("brush-bed", "brush bed", "U", "Cleans fruit on turning brushes."),
    Family("case-erector", "case erector", "E", "Opens flat cases and folds their bottoms."),
    Family("dryer", "dryer", "D", "Blows surface water off washed fruit."),
    Family("grader", "grader", "G", "Sorts fruit by size and colour."),
    Family("label-applicator", "label applicator", "L", "Sticks a label on every crate."),
    Family("palletiser", "palletiser", "P", "Stacks crates on pallets."),
    Family("roller-table", "roller table", "R", "Shows fruit from all sides for picking out."),
    Family("wash-flume", "wash flume", "W", "Carries fruit through washing water."),
)
PARTS = ("drive drum", "tail drum", "feed roller", "snub roller", "side guide roller", "transfer shaft", "chain wheel")
TROUBLES = (
    Trouble("slips under load", "slips"),
    Trouble("creeps after the stop", "creeps"),
    Trouble("squeals at the start", "squeals"),
    Trouble("stalls when it is loaded", "stalls"),
    Trouble("runs unevenly", "uneven run"),
    Trouble("knocks once in every turn", "knocks"),
)
OTHERS = ("belt", "band", "chain", "carrier", "apron")
PLACES = ("infeed side", "outfeed side", "walkway", "guard door", "inspection window")
REMARKS = (
    "A mark of chalk on the rim makes slow turning easier to see from a distance.",
    "Ask the operator of the last shift whether it began slowly or from one crate to the next.",
    "Low sun through the hall door hides a slow movement, so shade the guard with your hand.",
    "After a wash-down wait until the water has run off, because a wet rim looks as if it stood still.",
    "Noise from the machine beside it carries over the frame, so judge by what is seen and not by what is heard.",
    "The older frames have no window here, and the view from the walkway is the better one.",
    "Cold mornings make the lining stiff, and the fault then goes away within the first hour.",
    "Crates with a broken rib catch at the same place and look like the same fault.",
)
