"""Every kind of page: valid HTML, no barrier that a program can find, sizes for gloves, links that lead somewhere."""

from __future__ import annotations

import json
import posixpath
import re
import subprocess
from collections.abc import Callable
from urllib.parse import unquote, urlsplit

import pytest
from playwright.sync_api import Page

from tests.site.conftest import Browsing
from tests.site.demo import Place
from tests.site.needs import AXE, VNU, node_file, program
from tests.site.pages import KINDS, Outline, outlines

AXE_RULES = {"runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"], "preload": False}
SMALLEST_CONTROL = 48
SMALLEST_TEXT = 18
CONTROLS = """
() => [...document.querySelectorAll('a[href], button, input, select, textarea, summary, [role=button]')]
  .filter(one => one.checkVisibility() && !one.matches('.kb-skip'))
  .filter(one => !one.closest('p, dd, td, li') || one.matches(
    '.kb-way, .kb-go, .kb-list a, .kb-tiles a, .kb-result, .kb-site a'))
  .map(one => [one.outerHTML.slice(0, 90), Math.round(10 * one.getBoundingClientRect().height) / 10])
  .filter(([, height]) => height < %d)
"""
SMALL_TEXT = """
() => [...document.querySelectorAll('main p, main li, main dd, main dt, main td')]
  .filter(one => one.checkVisibility() && one.matches(':not(.kb-also)') &&
    [...one.childNodes].some(node => node.nodeType === 3 && node.data.trim()) &&
    parseFloat(getComputedStyle(one).fontSize) < %d)
  .map(one => one.outerHTML.slice(0, 90) + ': ' + getComputedStyle(one).fontSize)
"""
OVERFLOW = """
() => document.documentElement.scrollWidth <= innerWidth ? [] : [
  document.documentElement.scrollWidth,
  ...[...document.querySelectorAll('body *')]
    .filter(one => one.getBoundingClientRect().right > innerWidth + 1)
    .map(one => one.outerHTML.slice(0, 90)),
]
"""


@pytest.fixture(scope="module")
def pages(demo: Place) -> dict[str, Outline]:
    return outlines(demo.site)


def test_html_is_valid(demo: Place) -> None:
    command = [
        program("java", "default-jre-headless"),
        "-Xss4m",
        "-jar",
        str(node_file(VNU)),
        "--format",
        "json",
        "--errors-only",
        "--stdout",
        "--exit-zero-always",
    ]
    paths = [str(path) for path in sorted(demo.site.rglob("*.html"))]
    run = subprocess.run([*command, *paths], capture_output=True, text=True, check=False, timeout=300)
    messages = json.loads(run.stdout)["messages"]
    assert [f"{one['url'].rpartition('site/')[2]}:{one.get('lastLine')}: {one['message']}" for one in messages] == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("path", KINDS)
def test_no_barrier_is_found(
    browse: Callable[..., Browsing], root_for: Callable[[str], str], path: str, scheme: str
) -> None:
    tab = browse(root_for(path), color_scheme=scheme).open(path)
    tab.add_script_tag(path=str(node_file(AXE)))
    for width in (1280, 800):
        tab.set_viewport_size({"width": width, "height": 900})
        result = tab.evaluate("rules => axe.run(document, rules)", AXE_RULES)
        assert result["passes"]
        found = [
            f"{one['id']}: {node['html'][:120]} {node['failureSummary']}"
            for one in result["violations"]
            for node in one["nodes"]
        ]
        assert found == []


def test_dark_is_dark(browse: Callable[..., Browsing], folder_root: str) -> None:
    def ground(scheme: str) -> str:
        tab = browse(folder_root, color_scheme=scheme).open("index.html")
        return str(tab.evaluate("getComputedStyle(document.body).backgroundColor"))

    assert ground("light") != ground("dark")


@pytest.mark.parametrize("path", KINDS)
def test_page_fits_the_screen(browse: Callable[..., Browsing], root_for: Callable[[str], str], path: str) -> None:
    tab = browse(root_for(path)).open(path)
    for width in (800, 390):
        tab.set_viewport_size({"width": width, "height": 900})
        assert (width, tab.evaluate(OVERFLOW)) == (width, [])


@pytest.mark.parametrize("path", KINDS)
def test_sizes_suit_gloves_and_arms_length(
    browse: Callable[..., Browsing], root_for: Callable[[str], str], path: str
) -> None:
    tab = browse(root_for(path)).open(path)
    for width in (1280, 800):
        tab.set_viewport_size({"width": width, "height": 900})
        assert tab.evaluate(CONTROLS % SMALLEST_CONTROL) == []
        assert tab.evaluate(SMALL_TEXT % SMALLEST_TEXT) == []
        assert _body_size(tab) >= SMALLEST_TEXT


def test_search_results_are_large_enough(browse: Callable[..., Browsing], folder_root: str) -> None:
    tab = browse(folder_root).open("index.html#q=ice")
    tab.wait_for_selector(".kb-result")
    assert tab.evaluate(CONTROLS % SMALLEST_CONTROL) == []
    assert tab.evaluate(SMALL_TEXT % SMALLEST_TEXT) == []


def test_every_link_leads_somewhere(demo: Place, pages: dict[str, Outline]) -> None:
    lost = []
    for path, outline in pages.items():
        for link in outline.links:
            target, anchor = _target(path, link)
            known = target in pages or (demo.site / target).is_file()
            if not known or (anchor and anchor not in pages[target].ids):
                lost.append(f"{path}: {link}")
    assert lost == []


def test_every_loaded_file_is_part_of_the_site(demo: Place, pages: dict[str, Outline]) -> None:
    assert [
        f"{path}: {one}"
        for path, outline in pages.items()
        for one in outline.loaded
        if not (demo.site / _target(path, one)[0]).is_file()
    ] == []


def test_styles_load_nothing_from_elsewhere(demo: Place) -> None:
    for path in sorted(demo.site.rglob("*.css")):
        for address in re.findall(
            r"url\(\s*[\"']?([^)\"']+)|@import\s+[\"']([^\"']+)", path.read_text(encoding="utf-8")
        ):
            assert not "".join(address).startswith(("http:", "https:", "//")), path.name


def test_ids_are_unique(pages: dict[str, Outline]) -> None:
    assert {
        path: sorted({one for one in outline.ids if outline.ids.count(one) > 1})
        for path, outline in pages.items()
        if len(set(outline.ids)) < len(outline.ids)
    } == {}


def _target(path: str, link: str) -> tuple[str, str]:
    parts = urlsplit(link)
    if parts.scheme or parts.netloc:
        return link, ""
    whole = (
        parts.path.lstrip("/")
        if parts.path.startswith("/")
        else posixpath.normpath(posixpath.join(posixpath.dirname(path), parts.path))
    )
    return (unquote(whole) if parts.path else path), unquote(parts.fragment)


def _body_size(tab: Page) -> float:
    return float(
        tab.evaluate("parseFloat(getComputedStyle(document.querySelector('.kb-page') || document.body).fontSize)")
    )
