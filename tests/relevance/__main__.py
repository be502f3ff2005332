"""Runs the suite and prints its tables."""

from __future__ import annotations

import argparse
from pathlib import Path

from .report import comparison, judged, settings, worth
from .run import LUNR, MINISEARCH, OURS, WITHOUT, run
from .suite import PARTS, Suite, every, suite

_NOTED = Path(__file__).with_name("held-back-runs.txt")


def main() -> None:
    """Ask all queries of a part and print what came out."""
    parser = argparse.ArgumentParser(description="Measure how often the search shows the right entry first.")
    parser.add_argument("--part", choices=PARTS, default=PARTS[0])
    parser.add_argument("--most", type=int, default=10_000, help="at most so many queries of each kind")
    parser.add_argument("--worth", action="store_true", help="measure again without each part of the search")
    parser.add_argument("--why", default="", help="what the run of the held-back part is for")
    options = parser.parse_args()
    if options.part != PARTS[0]:
        _note(options.why or parser.error("say with --why what the held-back part is run for"))
    whole = suite(options.part)
    asked = Suite(whole.part, whole.corpora, tuple(every(whole.queries, options.most)))
    without = [f"{OURS}: {part}" for part in WITHOUT] if options.worth else []
    results = judged(asked.queries, run(asked, (OURS, LUNR, *MINISEARCH, *without)))
    print(f"{len(asked.queries):,} queries, {asked.part} part\n\n{comparison(results)}\n\n{settings(results)}")
    if options.worth:
        print(f"\n{worth(results)}")


def _note(why: str) -> None:
    with _NOTED.open("a", encoding="utf-8") as file:
        file.write(f"{why}\n")


if __name__ == "__main__":
    main()
