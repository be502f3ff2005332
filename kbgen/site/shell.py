"""The shell around a page: rendered once by the theme for each depth of folders, then stamped with every page.

The theme renders a page whose title, content and name are marks. What it returns is cut at the marks, so that a page
costs no more than joining strings; a page rendered in full by the theme comes out the same, byte for byte.
"""

from __future__ import annotations

import html
import re
from dataclasses import dataclass

from kbgen.pages.page import Page

NAME_MARK = "kbgen-page-name"
TITLE_MARK = "kbgen-page-title"
CONTENT_MARK = "<!--kbgen-page-content-->"
_MARKS = re.compile("|".join(map(re.escape, (NAME_MARK, TITLE_MARK, CONTENT_MARK))))


@dataclass(frozen=True)
class Shell:
    """A rendered page cut at its marks; ``pieces`` alternates text and marks."""

    pieces: tuple[str, ...]
    marks: tuple[str, ...]

    def around(self, page: Page) -> str:
        """The whole page."""
        name = page.path.removesuffix(".html").rpartition("/")[2]
        fills = {NAME_MARK: name, TITLE_MARK: html.escape(page.title), CONTENT_MARK: page.html}
        parts = [self.pieces[0]]
        for mark, piece in zip(self.marks, self.pieces[1:], strict=True):
            parts.append(fills[mark])
            parts.append(piece)
        return "".join(parts)


def cut(rendered: str) -> Shell:
    """Cut a rendered page at its marks; raise ValueError if the theme lost one of them."""
    marks = tuple(_MARKS.findall(rendered))
    if CONTENT_MARK not in marks or TITLE_MARK not in marks:
        raise ValueError("the theme does not show the title and the content of a page")
    return Shell(tuple(_MARKS.split(rendered)), marks)
