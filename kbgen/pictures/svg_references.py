"""References inside a cleaned drawing: every one leads somewhere, none multiplies the work of the browser.

The ids are replaced. An id of the author's choice could shadow a global variable of the page's scripts, be the
target of a style rule, or clash with the ids of the next drawing on the same page.
"""

import hashlib
import xml.etree.ElementTree as ET
from collections import Counter

from kbgen.pictures.svg_allowed import redirected, references
from kbgen.pictures.svg_text import to_text
from kbgen.pictures.unreadable import UnreadablePicture

MAX_DRAWN = 500_000
MAX_CHAIN = 150


def settle(root: ET.Element, removed: Counter[str]) -> None:
    """Drop references that lead nowhere, refuse loops and explosions, give the ids names of our own."""
    targets = _targets(root)
    _drop_dangling(root, targets, removed)
    _Weights(targets).of(root, 0)
    used = {target for element in root.iter() for _, target in _links(element)}
    _rename(root, {name: str(place) for place, name in enumerate((n for n in targets if n in used), 1)})
    digest = hashlib.sha256(to_text(root).encode()).hexdigest()[:10]
    _rename(root, {str(place): f"drawing-{digest}-{place}" for place in range(1, len(used) + 1)})


def _targets(root: ET.Element) -> dict[str, ET.Element]:
    targets: dict[str, ET.Element] = {}
    for element in root.iter():
        name = element.attrib.pop("id", None)
        if name is not None and name not in targets:
            targets[name] = element
            element.set("id", name)
    return targets


def _links(element: ET.Element) -> list[tuple[str, str]]:
    return [(name, target) for name, value in element.items() if name != "id" for target in references(name, value)]


def _drop_dangling(root: ET.Element, targets: dict[str, ET.Element], removed: Counter[str]) -> None:
    for element in root.iter():
        for name in dict(link for link in _links(element) if link[1] not in targets):
            del element.attrib[name]
            removed[f"a reference ({name}) to a part that the drawing does not have"] += 1


def _rename(root: ET.Element, names: dict[str, str]) -> None:
    for element in root.iter():
        old = element.attrib.pop("id", None)
        for name, value in element.items():
            if references(name, value):
                element.set(name, redirected(name, value, names))
        if old in names:
            element.set("id", names[old])


class _Weights:
    """How many elements a browser draws for an element, copies through references counted each time."""

    def __init__(self, targets: dict[str, ET.Element]) -> None:
        self._targets = targets
        self._known: dict[ET.Element, int] = {}
        self._open: set[ET.Element] = set()

    def of(self, element: ET.Element, chain: int) -> int:
        if element in self._known:
            return self._known[element]
        if element in self._open:
            raise UnreadablePicture("a part of the drawing refers to itself; remove that reference")
        if chain > MAX_CHAIN:
            raise UnreadablePicture(f"references in the drawing lead through more than {MAX_CHAIN} parts; simplify it")
        self._open.add(element)
        parts = [*element, *(self._targets[target] for _, target in _links(element))]
        weight = 1
        for part in parts:
            weight += self.of(part, chain + 1)
        self._open.remove(element)
        if weight > MAX_DRAWN:
            raise UnreadablePicture("the drawing repeats its parts too many times; simplify it")
        self._known[element] = weight
        return weight
