"""Make the width table and the web fonts from the font package.

Run after a new release of `fontpkg-atkinson-hyperlegible`:
    python -m kbgen.draw.fonts.generate site_templates/fonts
Needs fontTools, brotli and the font package; nothing at run time does.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

from fontpkg_atkinson_hyperlegible import ROOT  # type: ignore[import-untyped]
from fontTools import subset  # type: ignore[import-untyped]
from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

FACES = {400: "Regular", 700: "Bold"}
TABLE = Path(__file__).with_name("widths.json")


def font_file(weight: int) -> Path:
    """The package's TrueType file for a weight."""
    return Path(ROOT) / "files" / f"AtkinsonHyperlegible-{FACES[weight]}.ttf"


def advances(weight: int) -> dict[str, int]:
    """Advance width of each character, in font units, in code point order."""
    font = TTFont(font_file(weight))
    metrics = font["hmtx"].metrics
    return {chr(code): metrics[name][0] for code, name in sorted(font.getBestCmap().items())}


def width_table() -> dict[str, object]:
    """The table `kbgen.draw.measure` reads: one string of characters, one list per weight."""
    regular, bold = advances(400), advances(700)
    return {
        "units_per_em": TTFont(font_file(400))["head"].unitsPerEm,
        "characters": "".join(regular),
        "400": list(regular.values()),
        "700": [bold[character] for character in regular],
    }


def write_web_font(weight: int, folder: Path) -> None:
    """Subset one weight to the characters of the table, as WOFF2, without a time stamp."""
    options = subset.Options(flavor="woff2", layout_features=["kern", "mark", "mkmk", "ccmp"])
    font = subset.load_font(str(font_file(weight)), options)
    font.recalcTimestamp = False
    subsetter = subset.Subsetter(options)
    subsetter.populate(unicodes=[ord(character) for character in advances(weight)])
    subsetter.subset(font)
    subset.save_font(font, str(folder / f"atkinson-hyperlegible-{weight}.woff2"), options)


def main(folder: Path) -> None:
    """Write the table beside this file, and the fonts with their licence into `folder`."""
    text = json.dumps(width_table(), ensure_ascii=False, separators=(",", ":"), indent=None)
    TABLE.write_text(text + "\n", encoding="utf-8")
    for weight in FACES:
        write_web_font(weight, folder)
    licence = (Path(ROOT) / "LICENSE").read_text(encoding="utf-8")
    (folder / "atkinson-hyperlegible-OFL.txt").write_text(licence, encoding="utf-8")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
