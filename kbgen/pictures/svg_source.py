"""The bytes of an SVG file -> a tree of elements, with every known way to overload a parser closed."""

import xml.etree.ElementTree as ET
from dataclasses import dataclass

from kbgen.pictures.unreadable import UnreadablePicture

MAX_BYTES = 2_000_000
MAX_DEPTH = 64
MAX_ELEMENTS = 50_000


@dataclass(frozen=True)
class SvgSource:
    """The elements as written, and how many processing instructions stood among them."""

    root: ET.Element
    instructions: int


class _BoundedBuilder(ET.TreeBuilder):
    """Refuses a document type (and with it every entity) as soon as the parser meets it, in whatever encoding."""

    def __init__(self) -> None:
        super().__init__()
        self._depth = 0
        self._elements = 0
        self.instructions = 0

    def doctype(self, name: str, public: str | None, system: str | None) -> None:
        raise UnreadablePicture("the drawing declares a document type or entities; delete its <!DOCTYPE ...> line")

    def start(self, tag: str, attrs: dict[str, str], /) -> ET.Element:
        self._depth += 1
        self._elements += 1
        if self._depth > MAX_DEPTH:
            raise UnreadablePicture(f"the drawing nests its groups more than {MAX_DEPTH} deep; ungroup some of them")
        if self._elements > MAX_ELEMENTS:
            raise UnreadablePicture(f"the drawing has more than {MAX_ELEMENTS:,} elements; simplify it")
        return super().start(tag, attrs)

    def end(self, tag: str, /) -> ET.Element:
        self._depth -= 1
        return super().end(tag)

    def pi(self, target: str, text: str | None = None, /) -> None:  # type: ignore[override]
        self.instructions += 1


def parse(data: bytes) -> SvgSource:
    """Raise UnreadablePicture for what is too large, too deep, not XML, or declares a document type."""
    if len(data) > MAX_BYTES:
        raise UnreadablePicture(f"the drawing is larger than {MAX_BYTES // 1_000_000} MB; simplify it")
    builder = _BoundedBuilder()
    parser = ET.XMLParser(target=builder)
    try:
        parser.feed(data)
        root = parser.close()
    except (ET.ParseError, LookupError, ValueError) as fault:
        raise UnreadablePicture(f"the drawing is not well-formed XML ({fault})") from fault
    return SvgSource(root, builder.instructions)
