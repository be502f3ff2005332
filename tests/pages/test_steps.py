"""A step on the page offers every way that leaves it, inside a shared sequence too."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from kbgen.examine import open_case
from kbgen.library.folder import Folder, read_tables
from kbgen.pages.addresses import step_anchor
from kbgen.pages.procedure_page import procedure_page
from kbgen.route.unfold import unfold

DEMO = Folder(Path(__file__).parents[2] / "procedures", "procedures")
SHARED, _ = read_tables(DEMO, DEMO.table_files())
FILES = DEMO.procedure_files()


@pytest.mark.parametrize("file", FILES, ids=[file.path for file in FILES])
def test_every_way_that_is_walked_is_a_link_of_its_step(file) -> None:
    case, _ = open_case(DEMO, file, SHARED)
    assert case is not None
    page, _ = procedure_page(case.procedure, case.route, SHARED, {}, case.read_picture)
    links = _links(page.html)
    walk = unfold(case.route)
    for key, leaving in walk.edges.items():
        for target, _ in leaving:
            entered = {step_anchor(target), step_anchor(target.split(".")[0])}
            assert entered & links[step_anchor(key)], f"{key} offers no way to {target}"


def _links(html: str) -> dict[str, set[str]]:
    """The anchors that each step links to, up to the next step of the page."""
    heads = list(re.finditer(r'<section class="kb-step[^>]*id="(step-[^"]+)"', html))
    ends = [head.start() for head in heads[1:]] + [len(html)]
    return {
        head[1]: set(re.findall(r'class="kb-way" href="#(step-[^"]+)"', html[head.start() : end]))
        for head, end in zip(heads, ends, strict=True)
    }
