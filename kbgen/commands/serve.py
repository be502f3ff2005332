"""kbgen serve: show the site while it is being written, and build it again on every change."""

from __future__ import annotations

import argparse
import logging
import os
import sys
from pathlib import Path

from kbgen.commands.logs import listen

NAME = "serve"
HELP = "Show the site in a browser and build it again on every change."


def arguments(command: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    command.add_argument("-f", "--config", type=Path, default=Path("mkdocs.yml"), help="the MkDocs configuration")
    command.add_argument("-a", "--address", default="127.0.0.1:8000", help="host and port (default: %(default)s)")


def run(options: argparse.Namespace) -> int:
    """Serve by MkDocs until it is interrupted."""
    if not options.config.is_file():
        print(f"kbgen: there is no configuration “{options.config}”.", file=sys.stderr)
        return 2
    os.environ.setdefault("NO_MKDOCS_2_WARNING", "1")
    from mkdocs.commands.serve import serve
    from mkdocs.exceptions import MkDocsException

    listen(logging.INFO)
    try:
        serve(str(options.config), dev_addr=options.address)
    except (MkDocsException, SystemExit) as error:
        print(f"kbgen: {error}", file=sys.stderr)
        return 1
    return 0
