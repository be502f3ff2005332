"""kbgen schema: the format as JSON Schema, for editors that complete and check while one types."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from kbgen.schema.build import FILES, as_text, procedure_schema, tables_schema

NAME = "schema"
HELP = "Print the JSON Schema of procedures or shared tables, or write both for an editor."


def arguments(command: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    command.add_argument("--tables", action="store_true", help="print the schema of shared tables, not of procedures")
    command.add_argument("--write", type=Path, metavar="FOLDER", help="write both schemas into a folder")


def run(options: argparse.Namespace) -> int:
    """Print or write."""
    if options.write is None:
        print(as_text(tables_schema() if options.tables else procedure_schema()), end="")
        return 0
    if not options.write.is_dir():
        print(f"kbgen: there is no folder “{options.write}”.", file=sys.stderr)
        return 2
    for name, make in FILES.items():
        path = options.write / name
        path.write_text(as_text(make()), encoding="utf-8", newline="\n")
        print(f"{path}: written.")
    return 0
