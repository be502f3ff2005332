"""kbgen approve: record that someone who answers for it has read exactly this content."""

from __future__ import annotations

import argparse
import datetime
import sys
from pathlib import Path

from kbgen.cache import no_cache
from kbgen.check import kb402_void_approval
from kbgen.commands.check import print_findings
from kbgen.commands.configuration import settings_of
from kbgen.commands.places import find_folder
from kbgen.diagnostics import has_errors
from kbgen.examine import examine, open_case
from kbgen.library.folder import Folder, SourceFile
from kbgen.library.stamps import digest_of
from kbgen.model.fingerprint import fingerprint
from kbgen.model.shared import Shared
from kbgen.source.edit import Edit, apply, quoted, value_of, written_span
from kbgen.source.read import read_text

NAME = "approve"
HELP = "Record an approval in procedures and set their state to approved."


def arguments(command: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    command.add_argument("files", nargs="+", type=Path, help="procedures that were read and found right")
    command.add_argument(
        "--role", required=True, help="role of the person who approves, for example Maintenance engineer"
    )
    command.add_argument("--date", type=datetime.date.fromisoformat, help="day of the approval (default: today)")


def run(options: argparse.Namespace) -> int:
    """Write the approval into each file that has no errors."""
    day = options.date or datetime.date.today()
    code = 0
    for path in options.files:
        if not path.is_file():
            print(f"kbgen: there is no file “{path}”.", file=sys.stderr)
            return 2
        code = max(code, _approve(path, options.role, day))
    return code


def _approve(path: Path, role: str, day: datetime.date) -> int:
    folder = find_folder(path)
    examined = examine(folder, None, no_cache(), language=settings_of(folder).language)
    shown = folder.shown(path.resolve().relative_to(folder.root.resolve()).as_posix())
    others = [one for one in examined.found if one.at.path == shown and one.rule.code != kb402_void_approval.RULE.code]
    if has_errors(others):
        print_findings(others)
        print(f"kbgen: {path} has errors and was not approved.", file=sys.stderr)
        return 1
    _write(path, folder, examined.shared, role, day)
    print(f"{path}: approved by the {role} on {day.isoformat()}.")
    return 0


def _write(path: Path, folder: Folder, shared: Shared, role: str, day: datetime.date) -> None:
    text = path.read_bytes().decode("utf-8")
    file = SourceFile(path.resolve().relative_to(folder.root.resolve()).as_posix(), digest_of(text.encode()))
    case, _ = open_case(folder, file, shared)
    root = read_text(str(path), text).value
    assert case is not None and root is not None, "a procedure without errors can be read"
    content = fingerprint(case.procedure, shared)
    kept = [
        (one.role, one.date, one.content)
        for one in case.procedure.approvals
        if one.content == content and one.role != role
    ]
    rows = [
        f"{{role: {quoted(who)}, date: {when.isoformat()}, content: {quoted(what)}}}"
        for who, when, what in [*kept, (role, day, content)]
    ]
    approvals, state = value_of(root, "approvals"), value_of(root, "state")
    assert approvals is not None and state is not None, "a procedure without errors has both"
    edits = [Edit(written_span(approvals), f"[{', '.join(rows)}]"), Edit(written_span(state), "approved")]
    path.write_bytes(apply(text, edits).encode())
