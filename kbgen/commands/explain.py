"""kbgen explain: what a rule says, why it matters and how to mend what it finds."""

from __future__ import annotations

import argparse
import difflib
import sys

from kbgen.check.catalogue import RULES, rule
from kbgen.report.explain import explain

NAME = "explain"
HELP = "Explain a rule by its code or name; without one, list all rules."


def arguments(command: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    command.add_argument("code", nargs="?", help="for example KB303 or endless-loop")


def run(options: argparse.Namespace) -> int:
    """Print one rule, or a line for each."""
    if options.code is None:
        for one in RULES:
            print(f"{one.code}  {one.severity.value:<8} {one.name:<22} {one.summary}")
        return 0
    wanted = rule(options.code)
    if wanted is None:
        near = difflib.get_close_matches(
            options.code.lower(), [name for one in RULES for name in (one.code.lower(), one.name)]
        )
        hint = f" Did you mean {near[0]}?" if near else " kbgen explain lists them all."
        print(f"kbgen: there is no rule “{options.code}”.{hint}", file=sys.stderr)
        return 2
    print(explain(wanted))
    return 0
