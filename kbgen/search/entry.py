"""What the search is given: one entry for each page that can be found."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Code:
    """An alarm code as it is shown; `display` names the panel that shows it, `text` is what the alarm says."""

    code: str
    display: str
    text: str


@dataclass(frozen=True)
class Channel:
    """The mark of an axis, unit or channel beside the codes of a display, and what it `serves`, with its unit."""

    display: str
    mark: str
    serves: str


@dataclass(frozen=True)
class Symptom:
    """What a person at the machine notices; `also` holds other ways to say the same."""

    text: str
    also: tuple[str, ...]


@dataclass(frozen=True)
class Entry:
    """A page that can be found.

    `href` is relative to the root of the site. `kind` is "procedure", "part" or "tool". `words` holds further
    lines to search, such as causes and part numbers. `state` is the state of the document in words, `hazards` the short
    names of its gravest hazards.
    """

    href: str
    kind: str
    title: str
    equipment: str
    family: str
    codes: tuple[Code, ...]
    symptoms: tuple[Symptom, ...]
    words: tuple[str, ...]
    state: str
    hazards: tuple[str, ...]
