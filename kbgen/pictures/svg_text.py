"""A cleaned tree of elements -> SVG text, the same bytes for the same tree."""

import xml.etree.ElementTree as ET

from kbgen.pictures.svg_allowed import SVG

_TEXT = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", "\r": " "})
_VALUE = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;"})


def to_text(root: ET.Element) -> str:
    """Write the tree with SVG as its only namespace and the attributes in alphabetical order."""
    parts: list[str] = []
    _write(root, f' xmlns="{SVG}"', parts)
    return "".join(parts)


def _write(element: ET.Element, namespace: str, parts: list[str]) -> None:
    attributes = "".join(f' {name}="{value.translate(_VALUE)}"' for name, value in sorted(element.items()))
    head = f"<{element.tag}{namespace}{attributes}"
    if not len(element) and not element.text:
        parts.append(f"{head}/>")
        return
    parts.append(f"{head}>{(element.text or '').translate(_TEXT)}")
    for child in element:
        _write(child, "", parts)
        parts.append((child.tail or "").translate(_TEXT))
    parts.append(f"</{element.tag}>")
