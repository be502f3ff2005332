"""kbgen check: report everything that is wrong, at file, line and column."""

from __future__ import annotations

import argparse
import datetime
import sys
from collections.abc import Iterable, Sequence
from pathlib import Path

from kbgen.cache import no_cache, open_cache
from kbgen.commands.places import find_folder
from kbgen.commands.progress import shown
from kbgen.diagnostics import Diagnostic, has_errors
from kbgen.examine import Examination, examine
from kbgen.report.data import as_json
from kbgen.report.text import report, summary

NAME = "check"
HELP = "Check a knowledge base, or single files of it."


def arguments(command: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    command.add_argument("paths", nargs="*", type=Path, help="a knowledge base, or files in one (default: procedures)")
    command.add_argument(
        "--as-of", type=datetime.date.fromisoformat, help="the day on which reviews are judged overdue"
    )
    command.add_argument(
        "--format", choices=("text", "json"), default="text", help="text for people, json for programs"
    )
    command.add_argument("--no-cache", action="store_true", help="work everything out anew")


def run(options: argparse.Namespace) -> int:
    """Check and report."""
    paths: list[Path] = options.paths or [Path("procedures")]
    missing = [path for path in paths if not path.exists()]
    if missing:
        print(f"kbgen: there is no file or folder “{missing[0]}”.", file=sys.stderr)
        return 2
    folder = find_folder(paths[0])
    cache = no_cache() if options.no_cache else open_cache(str(folder.root.resolve()))
    examined = examine(folder, options.as_of or datetime.date.today(), cache, shown("Checking"))
    cache.save()
    found = [one for one in examined.found if _is_asked_for(one, paths)]
    if options.format == "json":
        print(as_json(found))
    else:
        _print(found, examined)
    return 1 if has_errors(found) else 0


def _is_asked_for(one: Diagnostic, paths: Sequence[Path]) -> bool:
    asked = [path.resolve() for path in paths]
    at = Path(one.at.path).resolve()
    return any(at == path or path in at.parents for path in asked)


def _print(found: Sequence[Diagnostic], examined: Examination) -> None:
    for block in report(found, lines_of):
        print(block)
    print(summary(found, len(examined.files) + examined.table_files))


def lines_of(path: str) -> Sequence[str]:
    """The lines of a file for excerpts; empty when it cannot be read as text."""
    try:
        return Path(path).read_text(encoding="utf-8-sig").splitlines()
    except (OSError, UnicodeDecodeError):
        return ()


def print_findings(found: Iterable[Diagnostic]) -> None:
    """Print findings on standard error, for commands whose purpose is another."""
    for block in report(found, lines_of):
        print(block, file=sys.stderr)
