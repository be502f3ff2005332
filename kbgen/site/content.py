"""A checked knowledge base -> everything that the site holds, still without the shell around its pages."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Mapping, MutableMapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from kbgen.analysis.digest import Digest
from kbgen.cache import Cache, key_of
from kbgen.check.case import Case
from kbgen.check.catalogue import RULES
from kbgen.cores import spread
from kbgen.examine import Examination, open_case
from kbgen.library.folder import SourceFile
from kbgen.memory import seldom_collected
from kbgen.model.shared import Shared
from kbgen.narrowing import data
from kbgen.pages.narrow_pages import narrow_pages
from kbgen.pages.narrow_scopes import scopes_of
from kbgen.pages.overview_pages import overview_pages
from kbgen.pages.page import Page
from kbgen.pages.picture_views import PictureFile
from kbgen.pages.procedure_page import procedure_page
from kbgen.pages.templates import site_templates
from kbgen.results import Checked
from kbgen.search import index
from kbgen.search.assets import SCRIPTS, TOGETHER
from kbgen.site.finding_data import finding_script
from kbgen.site.redirects import Moved, redirect_pages
from kbgen.site.search_entries import search_channels, search_entries

ASSETS = "kbgen"
_ASSET_FOLDERS = ("css", "fonts", "js")


@dataclass(frozen=True)
class SiteFile:
    """A file of the site that needs no shell: its path below the root, and its bytes."""

    path: str
    data: bytes


@dataclass(frozen=True)
class Content:
    """All pages and files of the site."""

    pages: tuple[Page, ...]
    files: tuple[SiteFile, ...]


@dataclass(frozen=True)
class _Rendered:
    page: Page
    pictures: tuple[PictureFile, ...]


@dataclass(frozen=True)
class _Job:
    """A page to make, and the key under which it is kept."""

    file: SourceFile
    key: str


Progress = Callable[[Sequence[SourceFile]], Iterable[SourceFile]]


@seldom_collected()
def content(
    examined: Examination,
    cache: Cache,
    progress: Progress = lambda items: items,
    cases: MutableMapping[str, Case] | None = None,
) -> Content:
    """Render all pages; those of unchanged procedures come from the cache.

    ``cases`` holds procedures that were read already, by path; it is emptied when the pages are made.
    """
    titles = {digest.id: digest.title for digest in examined.digests}
    pairs = zip(examined.files, examined.checked, strict=True)
    jobs = [_job(examined, file, one, digest, titles) for file, one in pairs if (digest := one.digest) is not None]
    rendered = _rendered(examined, jobs, titles, cache, {} if cases is None else cases, progress)
    moved = redirect_pages(examined.shared, titles)
    pages = [_with_old_anchors(one.page, moved) for one in rendered]
    scopes = scopes_of(examined.shared, examined.digests)
    pages += [*overview_pages(examined.shared, examined.digests, RULES), *moved.pages]
    pages += narrow_pages(examined.shared, scopes)
    pictures = [SiteFile(picture.path, picture.data) for one in rendered for picture in one.pictures]
    search = SiteFile(f"{ASSETS}/search-data.js", _search(examined, cache).encode())
    finding = SiteFile(f"{ASSETS}/finding-data.js", finding_script(examined.digests, examined.shared).encode())
    narrow = [SiteFile(f"{ASSETS}/{one.data}", data.script(one.model).encode()) for one in scopes.all]
    return Content(tuple(pages), (*assets(), *pictures, search, finding, *narrow))


def _rendered(
    examined: Examination,
    jobs: Sequence[_Job],
    titles: Mapping[str, str],
    cache: Cache,
    cases: MutableMapping[str, Case],
    progress: Progress,
) -> list[_Rendered]:
    known: dict[str, Any] = {job.key: cache.get(job.key) for job in jobs}
    fresh = [job for job in jobs if not isinstance(known[job.key], _Rendered)]

    def render(job: _Job) -> _Rendered:
        case = cases.get(job.file.path) or open_case(examined.folder, job.file, examined.shared)[0]
        assert case is not None, "a procedure with a digest can be read"
        page, files = procedure_page(case.procedure, case.route, examined.shared, titles, case.read_picture)
        return _Rendered(page, files)

    shown = progress([job.file for job in fresh])
    for job, made, _ in zip(fresh, spread(render, fresh), shown, strict=True):
        known[job.key] = made
        cache.put(job.key, made)
    cases.clear()
    return [known[job.key] for job in jobs]


def _job(
    examined: Examination, file: SourceFile, checked: Checked, digest: Digest, titles: Mapping[str, str]
) -> _Job:
    named = sorted({*(link.partition("#")[0] for link in digest.links), *_told_apart(digest, examined.shared)})
    key = key_of(
        "page", template_version(), file.path, file.digest, examined.shared_key,
        *(f"{name}={titles.get(name, '')}" for name in named), *(f"{path}={value}" for path, value in checked.pictures),
    )  # fmt: skip
    return _Job(file, key)


def _told_apart(digest: Digest, shared: Shared) -> set[str]:
    alarms = (shared.alarms.get((code.display, code.code)) for code in digest.codes)
    return {str(one.procedure) for alarm in alarms if alarm and alarm.tell_apart for one in alarm.tell_apart.answers}


def _with_old_anchors(page: Page, moved: Moved) -> Page:
    """Give the place of a step the anchors under which it was published before."""
    html = page.html
    for old, new in moved.anchors.get(page.path, ()):
        tag = html.rfind("<", 0, max(html.find(f'id="{new}"'), 0))
        html = f'{html[:tag]}<span id="{old}"></span>{html[tag:]}' if tag >= 0 else html
    return Page(page.path, page.title, html)


def _search(examined: Examination, cache: Cache) -> str:
    """The search data; it changes only when something that can be searched for does."""
    entries, channels = search_entries(examined.digests, examined.shared), search_channels(examined.shared)
    key = key_of("search", repr(entries), repr(channels), repr(examined.shared.synonyms))
    known = cache.get(key)
    if isinstance(known, str):
        return known
    script = index.script(index.build(entries, examined.shared.synonyms, channels))
    cache.put(key, script)
    return script


@cache
def assets() -> tuple[SiteFile, ...]:
    """Styles, scripts and fonts that come with kbgen."""
    root = site_templates()
    paths = [path for folder in _ASSET_FOLDERS for path in sorted((root / folder).rglob("*")) if path.is_file()]
    files = {path.relative_to(root).as_posix(): path.read_bytes() for path in paths}
    files[TOGETHER] = b"\n".join(files.pop(name) for name in SCRIPTS[:-1])
    icon = SiteFile(f"{ASSETS}/icon.svg", (root / "icon.svg").read_bytes())
    return (icon, *(SiteFile(f"{ASSETS}/{name}", data) for name, data in sorted(files.items())))


@cache
def template_version() -> str:
    """Hash of the page templates."""
    digest = hashlib.sha256()
    for path in _template_files():
        digest.update(path.read_bytes())
    return digest.hexdigest()


def _template_files() -> list[Path]:
    return sorted((site_templates() / "pages").glob("*.html"))
