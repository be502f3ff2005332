"""How fast the search is in the browser: size of its data, time until it answers, time from a key to the results.

    python -m tests.benchmarks.search_speed [--sizes 1000 3000 10000] [--slow 1 4] [--runs 5] [--json FILE]

The page is the built home page, opened from file:// in Chromium. Ready is the time from the start of loading the page,
with a query in its address, to its first result. A key is a character more in a query; until the results are laid out.
"""

from __future__ import annotations

import argparse
import gzip
import json
import random
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass, replace
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

from kbgen.cache import no_cache
from kbgen.examine import examine
from kbgen.library.folder import Folder
from kbgen.search.entry import Entry
from kbgen.search.index import build, script
from kbgen.site.search_entries import search_entries
from tests.benchmarks.generate import SEED, write_knowledge_base, write_sites

_PROBE = Path(__file__).with_name("search_page.js")
_SYLLABLES = ("ba", "cor", "den", "fil", "gra", "hol", "jin", "kem", "lus", "mor", "nex", "pul", "rit", "sam", "tov")
_VOCABULARY, _OWN_WORDS = 20_000, 12
_FIRST = "feed roller squeals"
_TYPED = (
    "drive drum slips at station 412",
    "B-0311",
    "slow output",
    "lable applicator knoks",
    "palletizer chain wheel stals",
    "film of grease",
    "G 0126",
    "tention at the snub roller",
)


@dataclass(frozen=True)
class Measured:
    """What one number of procedures costs at one slow-down; times in milliseconds, one for each run."""

    procedures: int
    slow: int
    words: int
    raw_mb: float
    gzip_mb: float
    build_s: float
    ready: tuple[float, ...]
    key_median: tuple[float, ...]
    key_p95: tuple[float, ...]


def entries(count: int) -> list[Entry]:
    """Return the entries of synthetic procedures, each with some invented words, the common ones more often."""
    with tempfile.TemporaryDirectory() as folder:
        write_knowledge_base(count, Path(folder))
        examined = examine(Folder(Path(folder), "procedures"), None, no_cache())
    chance = random.Random(SEED)
    plain = search_entries(examined.digests, examined.shared)
    return [replace(entry, words=(*entry.words, " ".join(_own_words(chance)))) for entry in plain]


def _own_words(chance: random.Random) -> Iterator[str]:
    for _ in range(_OWN_WORDS):
        number = int(_VOCABULARY ** chance.random())
        parts = []
        while number or not parts:
            number, place = divmod(number, len(_SYLLABLES))
            parts.append(_SYLLABLES[place])
        yield "".join(reversed(parts))


def _site(folder: Path) -> Path:
    """Build a small site: its home page is the same for every number of procedures."""
    write_sites(10, folder)
    build_site = (sys.executable, "-m", "mkdocs", "build", "--quiet")
    subprocess.run(build_site, cwd=folder / "kbgen", check=True, stdout=subprocess.DEVNULL)
    return folder / "kbgen" / "site"


def measure(count: int, slow: Sequence[int], runs: int, site: Path, browser: Browser) -> Iterator[Measured]:
    """Measure one number of procedures at each slow-down."""
    given = entries(count)
    started = time.process_time()
    index = build(given, ())
    text = script(index)
    took = time.process_time() - started
    data = text.encode()
    (site / "kbgen" / "search-data.js").write_bytes(data)
    for factor in slow:
        times = [_run(site, factor, browser) for _ in range(runs)]
        yield Measured(
            procedures=count,
            slow=factor,
            words=len({word for entry in given for word in entry.words.split()}),
            raw_mb=round(len(data) / 1e6, 2),
            gzip_mb=round(len(gzip.compress(data)) / 1e6, 2),
            build_s=round(took, 2),
            ready=tuple(round(ready) for ready, _ in times),
            key_median=tuple(round(statistics.median(keys), 1) for _, keys in times),
            key_p95=tuple(round(statistics.quantiles(keys, n=20)[-1], 1) for _, keys in times),
        )


def _run(site: Path, slow: int, browser: Browser) -> tuple[float, list[float]]:
    page = browser.new_page()
    page.add_init_script(path=_PROBE)
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": slow})
    page.goto(f"{(site / 'index.html').as_uri()}?q={_FIRST.replace(' ', '+')}")
    page.wait_for_function("bench.ready > 0", timeout=120_000)
    ready = page.evaluate("bench.ready")
    keys = page.evaluate("texts => bench.type(texts)", list(_TYPED))
    page.close()
    return ready, keys


def table(measured: Sequence[Measured]) -> str:
    """Show medians of the runs with the least and the most, in Markdown."""
    lines = [
        "| procedures | CPU slowed | data MB raw / gzip | ready ms | key to results, median ms | 95th percentile ms |",
        "| ---: | ---: | ---: | ---: | ---: | ---: |",
    ]
    lines += [
        f"| {one.procedures:,} | {one.slow}x | {one.raw_mb} / {one.gzip_mb} "
        f"| {_spread(one.ready)} | {_spread(one.key_median)} | {_spread(one.key_p95)} |"
        for one in measured
    ]
    return "\n".join(lines)


def _spread(times: Sequence[float]) -> str:
    return f"{statistics.median(times):g} ({min(times):g}-{max(times):g})"


def main() -> None:
    """Measure all sizes and print the table."""
    parser = argparse.ArgumentParser(description="Measure the search in the browser.")
    parser.add_argument("--sizes", type=int, nargs="+", default=[1000, 3000, 10_000])
    parser.add_argument("--slow", type=int, nargs="+", default=[1, 4])
    parser.add_argument("--runs", type=int, default=5)
    parser.add_argument("--json", type=Path, help="write the figures to this file as well")
    options = parser.parse_args()
    measured: list[Measured] = []
    chromium = shutil.which("chromium")
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        site = _site(Path(folder))
        browser = playwright.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
        for count in options.sizes:
            measured += measure(count, options.slow, options.runs, site, browser)
        browser.close()
    print(table(measured))
    if options.json:
        options.json.write_text(json.dumps([asdict(one) for one in measured], indent=2) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
