"""Write pages and files below the root of the site."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from kbgen.site.content import Content
from kbgen.site.shell import Shell


def write(content: Content, shells: Mapping[int, Shell], root: Path) -> None:
    """Write everything; ``shells`` gives the shell for each depth of folders."""
    made: set[Path] = set()
    for page in content.pages:
        _write(root / page.path, shells[page.depth].around(page).encode(), made)
    for file in content.files:
        _write(root / file.path, file.data, made)


def sitemap(content: Content, site_url: str) -> bytes:
    """A sitemap without dates, so that the same input gives the same bytes."""
    base = site_url if site_url.endswith("/") else f"{site_url}/"
    rows = "".join(f"<url><loc>{_escaped(base + page.path)}</loc></url>\n" for page in content.pages)
    head = '<?xml version="1.0" encoding="UTF-8"?>\n<urlset xmlns="http://www.sitemaps.org/schemas/sitemap/0.9">\n'
    return f"{head}{rows}</urlset>\n".encode()


def _escaped(text: str) -> str:
    return text.replace("&", "&amp;").replace("<", "&lt;")


def _write(path: Path, data: bytes, made: set[Path]) -> None:
    if path.parent not in made:
        path.parent.mkdir(parents=True, exist_ok=True)
        made.add(path.parent)
    path.write_bytes(data)
