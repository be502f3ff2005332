"""Synthetic procedures for measuring: valid, about 7 KB each, the same for the same number and seed.

    python -m tests.benchmarks.generate N FOLDER

writes a site of N procedures for kbgen to FOLDER/kbgen, and the same text as Markdown for plain MkDocs with
Material to FOLDER/plain.
"""

from __future__ import annotations

import argparse
import random
from collections.abc import Iterator
from pathlib import Path
from string import Template

from tests.benchmarks import markdown
from tests.benchmarks.vocabulary import FAMILIES, OTHERS, PARTS, PLACES, REMARKS, TROUBLES, Family

SEED = 20260914
_TEMPLATES = Path(__file__).parent / "templates"
_ALARM = "\n      - code: {code}\n        text: Station {number} below its speed"
_KBGEN_CONFIG = """\
site_name: Benchmark
docs_dir: procedures
use_directory_urls: false
theme: {name: material, font: false}
plugins: [kbgen]
"""


def write_knowledge_base(count: int, folder: Path, seed: int = SEED) -> list[Path]:
    """Write the shared tables and ``count`` procedures below ``folder``; return the procedure files."""
    _write(folder / "tables/site.yaml", (_TEMPLATES / "site.yaml").read_text(encoding="utf-8"))
    for place, family in enumerate(FAMILIES):
        _write(folder / f"tables/{family.id}.yaml", _tables(family, place, count))
    return [_write(folder / path, text) for path, text in procedures(count, seed)]


def procedures(count: int, seed: int = SEED) -> Iterator[tuple[str, str]]:
    """Yield path and YAML text of each procedure, spread evenly over the families."""
    template = Template((_TEMPLATES / "procedure.yaml").read_text(encoding="utf-8"))
    for number in range(count):
        family = FAMILIES[number % len(FAMILIES)]
        words = _words(number, count, family, random.Random(seed * 1_000_003 + number))
        yield f"{family.id}/{words['id']}.yaml", template.substitute(words)


def write_sites(count: int, folder: Path, seed: int = SEED) -> None:
    """Write a site for kbgen to ``folder``/kbgen and one for plain MkDocs with Material to ``folder``/plain."""
    files = write_knowledge_base(count, folder / "kbgen/procedures", seed)
    _write(folder / "kbgen/mkdocs.yml", _KBGEN_CONFIG)
    _write(folder / "plain/mkdocs.yml", markdown.CONFIG)
    _write(folder / "plain/docs/index.md", "# Benchmark\n\nThe pages are found by searching.\n")
    for path in files:
        text = path.read_text(encoding="utf-8")
        _write(folder / f"plain/docs/procedure/{path.stem}.md", markdown.page(text))


def _words(number: int, count: int, family: Family, chance: random.Random) -> dict[str, str]:
    part, trouble = chance.choice(PARTS), chance.choice(TROUBLES)
    remarks = {f"remark_{place}": text for place, text in enumerate(chance.sample(REMARKS, 4), start=1)}
    weights = {f"weight_{place}": str(chance.randint(1, 9)) for place in (1, 2, 3)}
    force = chance.choice((30, 50, 80))
    return {
        **remarks,
        **weights,
        "id": _name(number),
        "title": f"{part.capitalize()} of the {family.name} {trouble.text} at station {number + 1}",
        "revision": str(chance.randint(1, 9)),
        "family": family.id,
        "family_name": family.name,
        "part": part,
        "Part": part.capitalize(),
        "trouble": trouble.text,
        "short": trouble.short,
        "other": chance.choice(OTHERS),
        "place": chance.choice(PLACES),
        "number": str(number + 1),
        "code": _code(family, number),
        "times": str(chance.randint(1, 12)),
        "cloths": str(chance.randint(2, 6)),
        "screws": chance.choice(("four", "six", "eight")),
        "weight": str(chance.randint(3, 14)),
        "force": str(force),
        "limit": str(chance.randint(12, 40)),
        "span": str(64 * chance.randint(12, 40)),
        "neighbour": _name(number - 1 if number else count - 1),
    }


def _name(number: int) -> str:
    return f"station-{number + 1:05}"


def _code(family: Family, number: int) -> str:
    return f"{family.letter}-{number + 1:04}"


def _tables(family: Family, place: int, count: int) -> str:
    numbers = range(place, count, len(FAMILIES))
    alarms = "".join(_ALARM.format(code=_code(family, number), number=number + 1) for number in numbers)
    return Template((_TEMPLATES / "family.yaml").read_text(encoding="utf-8")).substitute(
        family=family.id,
        family_name=family.name,
        Family_name=family.name.capitalize(),
        about=family.about,
        letter=family.letter,
        hall=str(place + 1),
        alarms=alarms or " none",
    )


def _write(path: Path, text: str) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def main() -> None:
    """Write both sites to a folder."""
    options = argparse.ArgumentParser(description="Write synthetic procedures for measuring.")
    options.add_argument("count", type=int)
    options.add_argument("folder", type=Path)
    options.add_argument("--seed", type=int, default=SEED)
    given = options.parse_args()
    write_sites(given.count, given.folder, given.seed)


if __name__ == "__main__":
    main()
