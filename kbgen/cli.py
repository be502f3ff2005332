"""The command line: a thin shell over the stages."""

from __future__ import annotations

import argparse
import io
import sys
from collections.abc import Sequence

from kbgen import __version__
from kbgen.commands import approve, build, check, explain, new, schema, serve, times, upgrade
from kbgen.commands.output import fall_silent

COMMANDS = (new, check, build, serve, approve, times, explain, schema, upgrade)


def parser() -> argparse.ArgumentParser:
    """The command line as argparse knows it."""
    top = argparse.ArgumentParser(
        prog="kbgen",
        description="Check repair procedures written as YAML and publish them as a site that is searchable offline.",
    )
    top.add_argument("--version", action="version", version=f"kbgen {__version__}")
    commands = top.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for module in COMMANDS:
        one = commands.add_parser(module.NAME, help=module.HELP, description=module.HELP)
        module.arguments(one)
        one.set_defaults(run=module.run)
    return top


def main(arguments: Sequence[str] | None = None) -> int:
    """Run a command. Exit code 0: all well; 1: errors were found; 2: the command could not be carried out."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")  # names of files need not be text
    options = parser().parse_args(arguments)
    try:
        code = int(options.run(options))
        sys.stdout.flush()
        return code
    except BrokenPipeError:
        fall_silent()
        return 0
    except OSError as error:
        print(f"kbgen: {error.strerror or error}: {error.filename or ''}".rstrip(": "), file=sys.stderr)
        return 2


if __name__ == "__main__":
    sys.exit(main())
