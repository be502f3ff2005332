"""How fast the search is in the browser: size of its data, time until it answers, time from a key to the results.

    python -m tests.benchmarks.search_speed [--sizes 1000 3000 10000] [--slow 1 4] [--runs 5] [--engine lunr]

The page is the built home page, opened from file:// in Chromium. Ready is the time from the start of loading the page,
with a query in its address, to its first result; data the time to read the data once more and to answer from it. A key
is one more character of a query, until the results are laid out; its answer is the part of that without the page.
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
from kbgen.search import engine
from kbgen.search.assets import TOGETHER
from kbgen.search.entry import Entry
from kbgen.search.index import SearchIndex, _fields, build, script
from kbgen.site.search_entries import search_entries
from tests.benchmarks.generate import SEED, write_knowledge_base, write_sites

_OWN = "packed"
_PROBE = Path(__file__).with_name("search_page.js")
_SYLLABLES = ("ba", "cor", "den", "fil", "gra", "hol", "jin", "kem", "lus", "mor", "nex", "pul", "rit", "sam", "tov")
_VOCABULARY, _OWN_WORDS = 20_000, 12
_FIRST = "feed roller squeals"
_TYPED = ("drive drum slips at station 412", "B-0311", "lable applicator knoks", "tention at the snub roller")
_LUNR = Path(__file__).parents[1] / "node_modules" / "lunr" / "lunr.min.js"


@dataclass(frozen=True)
class Run:
    """One run of a page: times in milliseconds."""

    ready: float
    data: float
    answer_median: float
    answer_p95: float
    key_median: float
    key_p95: float


@dataclass(frozen=True)
class Measured:
    """What one number of procedures costs at one slow-down."""

    engine: str
    procedures: int
    slow: int
    words: int
    raw_mb: float
    gzip_mb: float
    build_s: float
    runs: tuple[Run, ...]


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
        parts: list[str] = []
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


def measure(name: str, count: int, slow: Sequence[int], runs: int, site: Path, browser: Browser) -> Iterator[Measured]:
    """Measure one number of procedures at each slow-down."""
    given = entries(count)
    started = time.process_time()
    index = build(given, ())
    data = script(index if name == _OWN else _with_lunr(index)).encode()
    took = time.process_time() - started
    (site / "kbgen" / "search-data.js").write_bytes(data)
    for factor in slow:
        yield Measured(
            engine=name,
            procedures=count,
            slow=factor,
            words=len(engine.Engine(index.engine).words),
            raw_mb=round(len(data) / 1e6, 2),
            gzip_mb=round(len(gzip.compress(data)) / 1e6, 2),
            build_s=round(took, 1),
            runs=tuple(_run(site, factor, browser) for _ in range(runs)),
        )


def _with_lunr(index: SearchIndex) -> SearchIndex:
    found = engine.lunr_index([_fields(entry, index.synonyms) for entry in index.entries])
    serialised = {**found.serialize(), "pipeline": []}
    return replace(index, engine={"serialised": json.dumps(serialised, separators=(",", ":"))})


def _run(site: Path, slow: int, browser: Browser) -> Run:
    page = browser.new_page()
    page.add_init_script(path=_PROBE)
    page.context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": slow})
    page.goto(f"{(site / 'index.html').as_uri()}?q={_FIRST.replace(' ', '+')}")
    page.wait_for_function("bench.ready > 0", timeout=180_000)
    ready = page.evaluate("bench.ready")
    keys = page.evaluate("texts => bench.keys(texts)", list(_TYPED))
    alone = page.evaluate("texts => bench.engine(texts)", list(_TYPED))
    page.close()
    return Run(ready, alone["data"], *_middle_and_end(alone["answers"]), *_middle_and_end(keys))


def _middle_and_end(times: Sequence[float]) -> tuple[float, float]:
    return statistics.median(times), statistics.quantiles(times, n=20)[-1]


def table(measured: Sequence[Measured]) -> str:
    """Show medians of the runs with the least and the most, in Markdown."""
    lines = [
        "| engine | procedures | words | CPU slowed | MB raw / gzip | ready ms | data ms | answer ms, median "
        "| answer ms, p95 | key to results ms, median | key to results ms, p95 |",
        "| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |",
    ]
    return "\n".join([*lines, *(_row(one) for one in measured)])


def _row(one: Measured) -> str:
    columns = zip(*(asdict(run).values() for run in one.runs), strict=True)
    size = f"{one.raw_mb} / {one.gzip_mb}"
    cells = [one.engine, f"{one.procedures:,}", f"{one.words:,}", f"{one.slow}x", size, *map(_spread, columns)]
    return f"| {' | '.join(cells)} |"


def _spread(times: Sequence[float]) -> str:
    return f"{statistics.median(times):.0f} ({min(times):.0f}-{max(times):.0f})"


def _use_lunr(site: Path) -> None:
    """Put lunr.js behind the interface of the engine."""
    together = site / "kbgen" / TOGETHER
    scripts = (_LUNR, together, Path(__file__).with_name("lunr_engine.js"))
    together.write_text("\n".join(path.read_text(encoding="utf-8") for path in scripts), encoding="utf-8")


def main() -> None:
    """Measure all sizes and print the table."""
    parser = argparse.ArgumentParser(description="Measure the search in the browser.")
    parser.add_argument("--sizes", type=int, nargs="+", default=[1000, 3000, 10_000])
    parser.add_argument("--slow", type=int, nargs="+", default=[1, 4])
    parser.add_argument("--runs", type=int, default=5)
    parser.add_argument("--engine", choices=(_OWN, "lunr"), default=_OWN)
    parser.add_argument("--json", type=Path, help="write the figures to this file as well")
    options = parser.parse_args()
    measured: list[Measured] = []
    chromium = shutil.which("chromium")
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        site = _site(Path(folder))
        browser = playwright.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
        if options.engine != _OWN:
            _use_lunr(site)
        for count in options.sizes:
            measured += measure(options.engine, count, options.slow, options.runs, site, browser)
        browser.close()
    print(table(measured))
    if options.json:
        options.json.write_text(json.dumps([asdict(one) for one in measured], indent=2) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
