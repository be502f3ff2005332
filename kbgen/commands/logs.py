"""What MkDocs and the plugin have to say, shown on standard error."""

from __future__ import annotations

import logging
import sys


def listen(level: int) -> None:
    """Show messages from a level on; MkDocs' small talk lies below WARNING."""
    handler = logging.StreamHandler(sys.stderr)
    handler.setFormatter(logging.Formatter("%(message)s"))
    handler.setLevel(level)
    log = logging.getLogger("mkdocs")
    log.setLevel(level)
    log.handlers = [handler]
