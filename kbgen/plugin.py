"""The MkDocs plugin: a thin shell that lets MkDocs render the theme and puts the pages of kbgen into the site."""

from __future__ import annotations

import logging
from pathlib import Path
from typing import Any, Literal

from mkdocs.config import base, config_options
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort
from mkdocs.plugins import BasePlugin, event_priority
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page as MkDocsPage

from kbgen.cache import Cache, open_cache
from kbgen.check.case import Case
from kbgen.commands import places
from kbgen.commands.check import lines_of
from kbgen.commands.progress import shown
from kbgen.diagnostics import Severity
from kbgen.examine import Examination, examine
from kbgen.pages import addresses
from kbgen.pages.templates import site_templates
from kbgen.report.text import report
from kbgen.settings import Settings, read_settings
from kbgen.site.content import ASSETS, Content, content
from kbgen.site.folder_swap import Workspace
from kbgen.site.shell import CONTENT_MARK, NAME_MARK, TITLE_MARK, Shell, cut
from kbgen.site.write import sitemap, write

log = logging.getLogger("mkdocs.plugins.kbgen")

NAVIGATION = (
    ("Search", addresses.HOME),
    ("Narrow down", addresses.NARROW),
    ("Codes", addresses.CODES),
    ("Equipment", addresses.EQUIPMENT),
    ("Tools", addresses.TOOLS),
    ("Parts", addresses.PARTS),
    ("Help", addresses.HELP),
)
STYLES = tuple(
    f"{ASSETS}/css/{name}.css"
    for name in ("site", "procedure", "chart", "signs", "callouts", "search", "narrow", "print")
)
_SHELLS = {f"{NAME_MARK}.md": 0, f"procedure/{NAME_MARK}.md": 1}


class PluginConfig(base.Config):
    """What mkdocs.yml may say of kbgen."""

    knowledge_base = config_options.Optional(config_options.Type(str))
    warnings = config_options.Type(bool, default=True)
    language = base.BaseConfigOption[object]()


class KbgenPlugin(BasePlugin[PluginConfig]):
    """Checks the knowledge base, builds beside the old site and swaps the two when everything went well."""

    def __init__(self) -> None:
        self._workspace: Workspace | None = None
        self._shells: dict[int, Shell] = {}
        self._cache: Cache | None = None
        self._cases: dict[str, Case] = {}
        self._counter: _WarningCounter | None = None
        self._serving = False
        self._is_sound = True
        self.examined: Examination | None = None

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Know whether pages are shown while they are written; then an error must not take the last good site away."""
        self._serving = command == "serve"

    @event_priority(100)
    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Check everything before MkDocs touches the site, and turn MkDocs to a folder beside it."""
        config.use_directory_urls = False
        config.theme.dirs.insert(0, str(site_templates() / "overrides"))
        self._counter = _WarningCounter() if config.strict else None
        self._cases, self._shells = {}, {}
        self._is_sound = self._examine(config)
        self._workspace = Workspace(Path(config.site_dir))
        config.site_dir = str(self._workspace.folder)
        return config

    def _examine(self, config: MkDocsConfig) -> bool:
        """Check everything; return whether a site may be built. Raise Abort where there is no earlier one to show."""
        folder = places.find_folder(self._root(config))
        self._cache = open_cache(str(folder.root.resolve()))
        settings = self._settings(config)
        examined = examine(
            folder, None, self._cache, shown("Checking"), self._cases.__setitem__, language=settings.language
        )
        found = [
            one
            for one in (*settings.found, *examined.found)
            if self.config.warnings or one.rule.severity is Severity.ERROR
        ]
        for one, block in zip(found, report(found, lines_of), strict=True):
            log.log(logging.ERROR if one.rule.severity is Severity.ERROR else logging.WARNING, "%s", block)
        if any(one.rule.severity is Severity.ERROR for one in found):
            self._cache.save()
            if self._serving and self.examined is not None:
                log.error("kbgen found errors; the last good site is still shown.")
                return False
            raise Abort("kbgen found errors; the site was left as it was.")
        self.examined = examined
        return True

    def _settings(self, config: MkDocsConfig) -> Settings:
        """Read the settings from the file itself, whose lines findings name and MkDocs has forgotten."""
        path = config.config_file_path
        return (read_settings(Path(path), places.shown) if path else None) or Settings()

    def _root(self, config: MkDocsConfig) -> Path:
        if self.config.knowledge_base is None:
            return Path(config.docs_dir)
        return Path(config.config_file_path or "mkdocs.yml").parent / self.config.knowledge_base

    def on_files(self, files: Files, config: MkDocsConfig) -> Files:
        """Take the files of the knowledge base out of MkDocs' hands, and add the pages that become shells."""
        for file in list(files):
            if _belongs_to_kbgen(file):
                files.remove(file)
        for path in _SHELLS:
            files.append(File.generated(config, path, content=f"# {TITLE_MARK}\n"))
        return files

    def on_env(self, env: Any, config: MkDocsConfig, files: Files) -> Any:
        """Give the template what it needs beside MkDocs' own variables."""
        env.globals["kbgen_theme_styles"] = _theme_styles(files)
        env.globals["kbgen_styles"] = STYLES
        env.globals["kbgen_nav"] = NAVIGATION
        return env

    def on_page_content(self, html: str, page: MkDocsPage, config: MkDocsConfig, files: Files) -> str:
        """Let a shell page hold nothing but the mark of its content."""
        if page.file.src_uri not in _SHELLS:
            return html
        page.title = TITLE_MARK
        return CONTENT_MARK

    def on_post_page(self, output: str, page: MkDocsPage, config: MkDocsConfig) -> str:
        """Keep the shells, and keep MkDocs from writing them."""
        depth = _SHELLS.get(page.file.src_uri)
        if depth is None:
            return output
        self._shells[depth] = cut(output)
        return ""

    @event_priority(-100)
    def on_post_build(self, config: MkDocsConfig) -> None:
        """Stamp all pages, and let the new site take the place of the old one."""
        assert self.examined and self._cache and self._workspace
        config.site_dir = str(self._workspace.site)
        if not self._is_sound:
            self._workspace.drop()
            return
        made = content(self.examined, self._cache, shown("Drawing pages"), self._cases)
        write(made, self._shells, self._workspace.folder)
        self._sitemap(made, config)
        self._cache.save()
        if self._counter and self._counter.count:
            self._workspace.drop()
        else:
            self._workspace.take_over()

    def _sitemap(self, made: Content, config: MkDocsConfig) -> None:
        assert self._workspace
        for name in ("sitemap.xml", "sitemap.xml.gz"):
            (self._workspace.folder / name).unlink(missing_ok=True)
        if config.site_url:
            (self._workspace.folder / "sitemap.xml").write_bytes(sitemap(made, config.site_url))

    def on_build_error(self, error: Exception) -> None:
        """Remove the half-built site; the old one was never touched."""
        if self._workspace:
            self._workspace.drop()

    def on_serve(self, server: Any, config: MkDocsConfig, builder: Any) -> Any:
        """Build again when the knowledge base or a template changes."""
        server.watch(str(self._root(config)))
        server.watch(str(site_templates()))
        return server


class _WarningCounter(logging.Handler):
    """Counts MkDocs' warnings in strict mode, in which they must keep the old site in place."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.count = 0
        logging.getLogger("mkdocs").addHandler(self)

    def emit(self, record: logging.LogRecord) -> None:
        self.count += 1


def _belongs_to_kbgen(file: File) -> bool:
    """YAML files are read by kbgen, and pictures are cleaned by it; only Markdown pages stay with MkDocs."""
    return not file.src_uri.endswith(".md") and not file.src_uri.startswith("assets/")


def _theme_styles(files: Files) -> list[str]:
    names = sorted(file.src_uri for file in files if file.src_uri.startswith("assets/stylesheets/"))
    return [name for name in names if name.endswith(".css")]
