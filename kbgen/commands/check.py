"""kbgen check: report everything that is wrong, at file, line and column."""

from __future__ import annotations

import argparse
import datetime
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence, Set
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from kbgen.cache import no_cache, open_cache
from kbgen.check.catalogue import RULES
from kbgen.commands.configuration import settings_of
from kbgen.commands.output import say
from kbgen.commands.places import Asked, below_repository, by_folder
from kbgen.commands.progress import shown
from kbgen.diagnostics import Diagnostic, Severity, in_order
from kbgen.examine import Examination, examine
from kbgen.language.wanted import Language
from kbgen.library.folder import Folder
from kbgen.report.annotations import as_commands
from kbgen.report.data import as_json
from kbgen.report.sarif import as_sarif
from kbgen.report.text import report, summary

NAME = "check"
HELP = "Check a knowledge base, or single files of it."
EXIT_CODES = (
    "Exit code 0: nothing was found that weighs as much as --fail-on says; 1: something was; "
    "2: wrong use, such as a file that is not there. Only what is found in the named files and folders is reported. "
    "YAML files that belong to no knowledge base are passed over."
)


@dataclass(frozen=True)
class Findings:
    """What was found in the files that were asked for, and how many files the knowledge bases have."""

    found: tuple[Diagnostic, ...]
    files: int


def _as_text(findings: Findings) -> Iterator[str]:
    yield from report(findings.found, lines_of)
    yield summary(findings.found, findings.files)


FORMATS: dict[str, Callable[[Findings], Iterable[str]]] = {
    "text": _as_text,
    "json": lambda findings: [as_json(findings.found)],
    "sarif": lambda findings: [as_sarif(findings.found, RULES, below_repository)],
    "github": lambda findings: as_commands(findings.found, below_repository),
}


def arguments(command: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    command.epilog = EXIT_CODES
    command.add_argument("paths", nargs="*", type=Path, help="a knowledge base, or files in one (default: procedures)")
    command.add_argument(
        "--as-of", type=datetime.date.fromisoformat, help="the day on which reviews are judged overdue"
    )
    command.add_argument(
        "--format",
        choices=tuple(FORMATS),
        default="text",
        help="text for people; json for programs; sarif (SARIF 2.1.0) for code reviews and editors; github for the "
        "annotations of GitHub Actions (default: text)",
    )
    command.add_argument(
        "--fail-on",
        choices=tuple(severity.value for severity in Severity),
        default=Severity.ERROR.value,
        help="the least weight of a finding that gives exit code 1 (default: error)",
    )
    command.add_argument("--no-cache", action="store_true", help="work everything out anew")


def run(options: argparse.Namespace) -> int:
    """Check and report."""
    paths: list[Path] = options.paths or [Path("procedures")]
    missing = [path for path in paths if not path.exists()]
    if missing:
        print(f"kbgen: there is no file or folder “{missing[0]}”.", file=sys.stderr)
        return 2
    day = options.as_of or datetime.date.today()
    asked = by_folder(paths)
    for path in asked.passed_over:
        print(f"kbgen: {path} belongs to no knowledge base and was passed over.", file=sys.stderr)
    findings = _findings(asked, lambda folder, language: _examined(folder, language, day, options.no_cache))
    say(FORMATS[options.format](findings))
    weights = list(Severity)
    enough = weights[: weights.index(Severity(options.fail_on)) + 1]
    return 1 if any(one.rule.severity in enough for one in findings.found) else 0


def _findings(asked: Asked, examined: Callable[[Folder, Language], Examination]) -> Findings:
    found: list[Diagnostic] = []
    files = 0
    for folder, paths in asked.folders.items():
        settings = settings_of(folder)
        one = examined(folder, settings.language)
        found += [*settings.found, *one.found_in(partial(_is_asked_for, {path.resolve() for path in paths}))]
        files += len(one.files) + one.table_files
    return Findings(in_order(found), files)


def _examined(folder: Folder, language: Language, day: datetime.date, is_anew: bool) -> Examination:
    cache = no_cache() if is_anew else open_cache(str(folder.root.resolve()), "check")
    examined = examine(folder, day, cache, shown("Checking"), language=language)
    cache.save()
    return examined


def _is_asked_for(asked: Set[Path], name: str) -> bool:
    path = Path(name).resolve()
    return not asked.isdisjoint((path, *path.parents))


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
