"""The kinds of pages of the demo, and what stands in their HTML."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path

PROCEDURES = ("cooler-iced-up", "conveyor-trips-on-overload", "leveller-lip-not-out")
KINDS = (
    "index.html", *(f"procedure/{name}.html" for name in PROCEDURES), "codes.html", "display/room-panel.html",
    "narrow.html", "narrow/display-room-panel.html", "equipment.html", "family/air-cooler.html", "tools.html",
    "parts.html", "glossary.html", "cautions.html",
    "help.html", "authors.html", "formulas.html", "rule/kb301.html", "404.html",
)  # fmt: skip


@dataclass
class Outline(HTMLParser):
    """Ids, links and loaded files of one page."""

    ids: list[str] = field(default_factory=list)
    links: list[str] = field(default_factory=list)
    loaded: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = {name: value or "" for name, value in attrs}
        if "id" in values:
            self.ids.append(values["id"])
        if tag in ("a", "use") and "href" in values:
            self.links.append(values["href"])
        self.loaded += [values[name] for name in ("src", "srcset", "poster") if name in values]
        if tag in ("link", "image") and "href" in values:
            self.loaded.append(values["href"])


def outlines(site: Path) -> dict[str, Outline]:
    """The outline of every page, by its address."""
    found = {}
    for path in sorted(site.rglob("*.html")):
        outline = Outline()
        outline.feed(path.read_text(encoding="utf-8"))
        found[path.relative_to(site).as_posix()] = outline
    return found
