"""kbgen build: check everything, build the site and record its addresses."""

from __future__ import annotations

import argparse
import logging
import os
import sys
from pathlib import Path
from typing import Any

from kbgen.commands.logs import listen
from kbgen.examine import Examination
from kbgen.library.ledger import text_of
from kbgen.model.words import DocumentState

NAME = "build"
HELP = "Check a knowledge base and build its site."


def arguments(command: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    command.add_argument("-f", "--config", type=Path, default=Path("mkdocs.yml"), help="the MkDocs configuration")
    command.add_argument("-d", "--site", type=Path, help="folder for the site (default: as the configuration says)")


def run(options: argparse.Namespace) -> int:
    """Build by MkDocs with the plugin; the old site stays until the new one is complete."""
    if not options.config.is_file():
        print(f"kbgen: there is no configuration “{options.config}”.", file=sys.stderr)
        return 2
    os.environ.setdefault("NO_MKDOCS_2_WARNING", "1")
    from mkdocs.commands.build import build
    from mkdocs.config import load_config
    from mkdocs.exceptions import MkDocsException

    listen(logging.WARNING)
    site = {"site_dir": str(options.site.resolve())} if options.site else {}
    try:
        config = load_config(str(options.config), **site)
        build(config)
    except (MkDocsException, SystemExit) as error:
        print(f"kbgen: {error}", file=sys.stderr)
        return 1
    plugin: Any = config.plugins["kbgen"]
    examined: Examination = plugin.examined
    added = _record(examined)
    start = Path(config.site_dir) / "index.html"
    print(f"{len(examined.digests):,} procedures. Open {start} in a browser.")
    if added:
        print(f"{added:,} new addresses recorded in {examined.folder.ledger_path()}; keep it in git.")
    return 0


def _record(examined: Examination) -> int:
    """Add the addresses of approved procedures to the ledger; return how many are new."""
    known = {str(address) for address in examined.published}
    present = set()
    for digest in examined.digests:
        if digest.state == DocumentState.APPROVED.value:
            present |= {digest.id, *(f"{digest.id}#{anchor}" for anchor in digest.anchors)}
    fresh = present - known
    if fresh:
        examined.folder.ledger_path().write_text(text_of(known | fresh), encoding="utf-8")
    return len(fresh)
