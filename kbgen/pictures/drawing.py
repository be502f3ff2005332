"""An SVG drawing from an author -> one that can stand in a page: what is not on a list of allowed things goes."""

import xml.etree.ElementTree as ET
from collections import Counter
from dataclasses import dataclass

from kbgen.pictures import svg_allowed as allowed
from kbgen.pictures.svg_references import settle
from kbgen.pictures.svg_size import ViewBox, view_box
from kbgen.pictures.svg_source import parse
from kbgen.pictures.svg_text import to_text
from kbgen.pictures.unreadable import UnreadablePicture

_ELEMENT_WORDS = {
    "a": "a link (the shapes in it are kept)",
    "script": "a script",
    "style": "a style sheet (set fill, stroke and font on the shapes themselves)",
    "foreignObject": "foreign content (foreignObject)",
    "image": "a picture placed inside the drawing (give it as a picture of its own)",
    "animate": "an animation",
    "animateMotion": "an animation",
    "animateTransform": "an animation",
    "set": "an animation",
    "filter": "a filter effect",
    "mask": "a mask (use a clip path)",
}
MAX_PROBLEMS = 30
_UNWRAPPED = frozenset({"a", "switch"})
_STRANGE_NAMESPACES = frozenset({allowed.XHTML, allowed.MATHML, allowed.EVENTS})
_OUTSIDE = "a link to something outside the drawing"


@dataclass(frozen=True)
class CleanDrawing:
    """A safe drawing: its text, its size in user units, and what was taken out of it, in plain words."""

    svg: str
    width: float
    height: float
    problems: tuple[str, ...]


def clean(data: bytes) -> CleanDrawing:
    """Return the drawing without anything that runs, loads, links or reaches outside it.

    The result can be placed in a page or in a file. Cleaning it again changes nothing. Raises UnreadablePicture if the
    bytes are no SVG, are too large or too deep, declare entities, multiply themselves, or draw nothing.
    """
    source = parse(data)
    namespace, name = _split(source.root.tag)
    if name != "svg" or namespace not in (allowed.SVG, ""):
        raise UnreadablePicture("the file is not an SVG drawing: its outermost element is not <svg>")
    cleaner = _Cleaner()
    cleaner.removed.update({"a processing instruction": source.instructions} if source.instructions else {})
    box = view_box(*(source.root.get(name) for name in ("viewBox", "width", "height")))
    root = cleaner.root(source.root, box)
    settle(root, cleaner.removed)
    if not any(element.tag in allowed.SHAPES for element in root.iter()):
        raise UnreadablePicture("the drawing holds no shape and no text that may be shown")
    return CleanDrawing(to_text(root), box.width, box.height, _problems(cleaner.removed))


def _problems(removed: Counter[str]) -> tuple[str, ...]:
    lines = [f"{what} ({times} times)" if times > 1 else what for what, times in removed.items()]
    rest = len(lines) - MAX_PROBLEMS
    return (*lines[:MAX_PROBLEMS], f"{rest} more kinds of things") if rest > 0 else tuple(lines)


def _split(name: str) -> tuple[str, str]:
    namespace, brace, local = name.rpartition("}")
    return (namespace[1:], local) if brace else ("", name)


class _Cleaner:
    """Copies what is allowed into a new tree and counts what is not."""

    def __init__(self) -> None:
        self.removed: Counter[str] = Counter()

    def root(self, source: ET.Element, box: ViewBox) -> ET.Element:
        attributes = self._attributes(source)
        for name in sorted(allowed.NOT_ON_ROOT & attributes.keys()):
            del attributes[name]
        sides = {"width": f"{box.width:.6g}", "height": f"{box.height:.6g}"}
        root = ET.Element("svg", attributes | sides | {"viewBox": box.text})
        self._fill(root, source)
        return root

    def _fill(self, target: ET.Element, source: ET.Element) -> None:
        in_text = target.tag in allowed.TEXT_RUNS
        if in_text or target.tag in allowed.CAPTIONS:
            target.text = source.text
        for child in source:
            kept = self._element(child, in_text)
            if kept is not None and target.tag not in allowed.CAPTIONS:
                target.append(kept)
            if in_text:
                _append_text(target, child.tail or "")

    def _element(self, source: ET.Element, in_text: bool) -> ET.Element | None:
        namespace, name = _split(source.tag)
        if namespace not in (allowed.SVG, "") or name not in allowed.ELEMENTS | _UNWRAPPED:
            self._note_element(namespace, name)
            return None
        if name in _UNWRAPPED:
            self._note_element(namespace, name)
            name = "tspan" if in_text else "g"
        element = ET.Element(name, self._attributes(source))
        self._fill(element, source)
        return element

    def _note_element(self, namespace: str, name: str) -> None:
        if namespace in (allowed.SVG, "") and name not in allowed.BOOKKEEPING_ELEMENTS:
            self.removed[_ELEMENT_WORDS.get(name, f"the element <{name[:40]}>")] += 1
        elif namespace in _STRANGE_NAMESPACES:
            self.removed[f"the element <{name[:40]}>, which is not part of a drawing"] += 1

    def _attributes(self, source: ET.Element) -> dict[str, str]:
        kept: dict[str, str] = {}
        styled: dict[str, str] = {}
        for full_name, written in source.items():
            namespace, name = _split(full_name)
            value = " ".join(written.split())
            if name == "href" and namespace in ("", allowed.XLINK):
                self._href(namespace, value, kept)
            elif namespace == "" and name == "style":
                styled = self._style(written)
            elif namespace == "" and self._is_allowed(name, value):
                kept[name] = value
            elif namespace in _STRANGE_NAMESPACES:
                self.removed[f"the attribute {name[:40]}"] += 1
        return kept | styled

    def _href(self, namespace: str, value: str, kept: dict[str, str]) -> None:
        if not allowed.is_local_href(value):
            self.removed[_OUTSIDE] += 1
        elif namespace == "" or "href" not in kept:
            kept["href"] = value

    def _style(self, text: str) -> dict[str, str]:
        """Turn a style into attributes, which no content security policy of a host forbids."""
        properties: dict[str, str] = {}
        for declaration in text.split(";"):
            name, colon, value = (part.strip() for part in declaration.partition(":"))
            name = name.lower()
            if name in allowed.PROPERTIES and allowed.is_safe(value):
                properties[name] = " ".join(value.split())
            elif colon and not name.startswith("-"):
                self.removed[f"the style property {name[:40]}"] += 1
        return properties

    def _is_allowed(self, name: str, value: str) -> bool:
        if name == "id" or (name in allowed.ATTRIBUTES and allowed.is_safe(value)):
            return True
        if name.lower().startswith("on"):
            self.removed[f"the event handler {name[:40]}"] += 1
        elif name in allowed.PROPERTIES and "url" in value.lower():
            self.removed[_OUTSIDE] += 1
        elif name not in allowed.BOOKKEEPING_ATTRIBUTES and not name.startswith("data-"):
            self.removed[f"the attribute {name[:40]}"] += 1
        return False


def _append_text(target: ET.Element, text: str) -> None:
    if len(target):
        target[-1].tail = (target[-1].tail or "") + text
    else:
        target.text = (target.text or "") + text
