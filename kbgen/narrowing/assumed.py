"""All figures that no author gave: what they are, and why. The page shows them as they stand here."""

from __future__ import annotations

from dataclasses import dataclass

LISTED = 0.5
NOT_NAMED = 0.05
CODE_ALWAYS = 0.95
CODE_SOMETIMES = 0.5
CODE_NOT_NAMED = 0.02
LEAST, MOST = 0.01, 0.99
TIMES_IF_NONE = 1.0
JUDGED_CASES = 1.0
SECONDS_TO_LOOK = 120
SECONDS_TO_READ_A_DISPLAY = 60
SECONDS_TO_RECALL = 30
BITS_WORTH_ASKING = 0.02
NORMAL_QUANTILE = 1.6448536269514722
"""The standard normal quantile of 0.95: it leaves 5 % out on either side of a range."""


@dataclass(frozen=True)
class Assumption:
    """A figure that no author gave, in words."""

    about: str
    figure: str
    why: str


ASSUMPTIONS = (
    Assumption(
        "A symptom that a procedure lists, for which its causes give no chance",
        f"{LISTED:.0%}",
        "Nothing is known but that it can be there.",
    ),
    Assumption(
        "A symptom that a procedure or one of its causes does not name",
        f"{NOT_NAMED:.0%}",
        "It may be there for another reason; that nobody wrote of it does not rule it out.",
    ),
    Assumption(
        "A code that a fault raises always",
        f"{CODE_ALWAYS:.0%}",
        "It can have been reset or misread.",
    ),
    Assumption("A code that a fault raises sometimes", f"{CODE_SOMETIMES:.0%}", "As often as not."),
    Assumption(
        "A code that a procedure does not name",
        f"{CODE_NOT_NAMED:.0%}",
        "A code means one thing, so it is rarer by chance than a symptom.",
    ),
    Assumption(
        "How often something comes up that no procedure here describes",
        "the median of the others in the list",
        "No list is complete; it counts like one more fault whose procedure names nothing.",
    ),
    Assumption(
        "Least and most that an author's chance counts",
        f"{LEAST:.0%} and {MOST:.0%}",
        "No single answer proves or excludes a fault: people misjudge and mistype.",
    ),
    Assumption(
        "How often a fault comes up whose procedure does not say",
        "the median of the others in the list",
        "Neither favours nor hides it.",
    ),
    Assumption(
        "Closed jobs that count for weights by judgement",
        f"{JUDGED_CASES:.0f}",
        "A judgement is worth something, but less than a few counted jobs.",
    ),
    Assumption(
        "Time for a look whose step gives none, to read a display, to recall what was noticed",
        f"{SECONDS_TO_LOOK // 60} min, {SECONDS_TO_READ_A_DISPLAY // 60} min, {SECONDS_TO_RECALL} s",
        "Only used to compare questions.",
    ),
)
"""What the page tells its readers; the figures of the calculation are the names above."""
