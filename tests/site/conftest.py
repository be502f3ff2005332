"""The demo is built once; a browser reads it from the folder and from a web server, and from nowhere else."""

from __future__ import annotations

import functools
import http.server
import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Request, Route, sync_playwright

from tests.site.demo import Place, demo_copy
from tests.site.needs import program

BROWSER_ARGUMENTS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip
LEFT_BEHIND = "net::ERR_ABORTED"  # the reader went on before the file was there
WIDE = {"width": 1280, "height": 900}


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: Any) -> None:
        pass


@dataclass
class Browsing:
    """A browser context that reaches only the site, with a record of all that went wrong in it."""

    context: BrowserContext
    root: str
    refused: list[str] = field(default_factory=list)
    failed: list[str] = field(default_factory=list)
    said: list[str] = field(default_factory=list)

    def open(self, path: str) -> Page:
        """Open a page of the site in a new tab."""
        page = self.context.new_page()
        page.goto(self.root + path)
        return page

    def assert_clean(self) -> None:
        """Nothing was asked of another host, nothing failed to load, and no script complained."""
        assert self.refused == []
        assert self.failed == []
        assert self.said == []


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Place:
    """The demo, built."""
    place = demo_copy(tmp_path_factory.mktemp("demo"))
    place.build()
    return place


@pytest.fixture(scope="session")
def server(demo: Place) -> Iterator[str]:
    """Address of a web server that serves the demo on this machine only."""
    handler = functools.partial(_Quiet, directory=str(demo.site))
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as running:
        threading.Thread(target=running.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{running.server_address[1]}/"
        running.shutdown()


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Chromium."""
    executable = program("chromium", "chromium")
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=executable, args=BROWSER_ARGUMENTS)
        yield running
        running.close()


@pytest.fixture
def browse(browser: Browser, demo: Place) -> Iterator[Callable[..., Browsing]]:
    """Open contexts on a copy of the site; at the end of the test each of them must be clean."""
    opened: list[Browsing] = []

    def start(root: str, **options: Any) -> Browsing:
        context = browser.new_context(**{"viewport": WIDE, "reduced_motion": "reduce", **options})
        context.set_default_timeout(10_000)
        browsing = Browsing(context, root)
        _watch(browsing, (demo.site.as_uri(), root))
        opened.append(browsing)
        return browsing

    yield start
    for one in opened:
        one.context.close()
        one.assert_clean()


@pytest.fixture(params=["file", "http"])
def root(request: pytest.FixtureRequest, demo: Place, server: str) -> str:
    """Address of the site, as a folder and from a web server."""
    return f"{demo.site.as_uri()}/" if request.param == "file" else server


@pytest.fixture
def root_for(demo: Place, server: str) -> Callable[[str], str]:
    """The root to open a page from: the page for addresses that are not there makes sense on a web server only."""
    return lambda path: server if path == "404.html" else f"{demo.site.as_uri()}/"


@pytest.fixture
def folder_root(demo: Place) -> str:
    """Address of the site as a folder."""
    return f"{demo.site.as_uri()}/"


def _watch(browsing: Browsing, allowed: tuple[str, ...]) -> None:
    def decide(route: Route) -> None:
        if route.request.url.startswith((*allowed, "data:")):
            route.continue_()
        else:
            browsing.refused.append(route.request.url)
            route.abort()

    def attach(page: Page) -> None:
        page.on(
            "console",
            lambda message: browsing.said.append(message.text) if message.type in ("error", "warning") else None,
        )
        page.on("pageerror", lambda error: browsing.said.append(str(error)))
        page.on("requestfailed", lambda request: _note_failure(browsing, request))
        page.on(
            "response",
            lambda answer: browsing.failed.append(f"{answer.url}: {answer.status}") if answer.status >= 400 else None,
        )

    browsing.context.route("**/*", decide)
    browsing.context.on("page", attach)


def _note_failure(browsing: Browsing, request: Request) -> None:
    if request.failure != LEFT_BEHIND:
        browsing.failed.append(f"{request.url}: {request.failure}")
