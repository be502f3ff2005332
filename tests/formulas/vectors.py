"""The shared vectors of the formulas: `python -m tests.formulas.vectors` writes them anew.

Read the difference before committing it: the answers are what both languages are held to, bit for bit, but for what
goes through ln and exp, where the last places may differ.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from itertools import product
from pathlib import Path
from typing import Any

from kbgen.formulas.compute import work_out
from kbgen.formulas.errors import FormulaError, OutOfRange
from kbgen.formulas.evaluate import evaluate
from kbgen.formulas.expression import parse
from kbgen.formulas.formula import Formula
from kbgen.formulas.portable import portable
from kbgen.formulas.registry import FORMULAS

FILE = Path(__file__).parent.parent / "vectors" / "formulas.json"
AUTHOR_TABLE = [(4.0, -22.5), (8.0, -1.6), (10.0, 6.4), (16.0, 24.1)]

# Values of each input, in the order of the formula; every combination is a case.
GRID: Mapping[str, Sequence[Sequence[float]]] = {
    "affinity-flow": [[0, 400], [1450, 1800], [1000, 3600]],
    "affinity-head": [[12.5, 48], [1450, 1800], [1000, 3600]],
    "affinity-power": [[0.37, 45], [1450, 1800], [1000, 3600]],
    "belt-deflection": [[100, 1280, 2540]],
    "bolt-torque": [[0.12, 0.2], [9.3, 34.2], [8, 12]],
    "current-unbalance": [[0, 18], [0, 18.5], [0, 26]],
    "cylinder-pull": [[0, 6, 63.5], [50, 101.6], [20, 50, 50.8]],
    "cylinder-push": [[0, 6, 63.5], [50, 101.6]],
    "discharge-time": [[565, 800], [50, 60, 565], [2230, 100e3], [1000, 2000]],
    "hot-spot-ambient": [[20, 21, 30.1, 40.3, 80], [19.5, 20, 40.3]],
    "hot-spot-similar": [[20, 21, 30.1, 43.3, 80], [19.5, 20, 40.3]],
    "insulation-at-40-thermoplastic": [[0, 5, 200], [0, 20, 40, 85]],
    "insulation-at-40-thermosetting": [[0, 5, 200], [10, 20, 40, 60, 85]],
    "loop-current": [[-20, 0, 9.6, 103.125], [-50, 0, 16], [16, 100, 150]],
    "loop-current-class": [[0, 3.6, 3.7, 3.8, 12, 20.5, 20.6, 21, 22]],
    "loop-value": [[3.8, 4, 6.4, 20.5], [-50, 0, 16], [16, 100]],
    "motor-slip": [[50, 60], [2, 4, 6], [0, 970, 1450, 1746, 2950]],
    "polarization-index": [[0.001, 250, 5000], [0, 800, 1e6]],
    "pt100-resistance": [[-200, -100, -0.5, 0, 0.5, 25, 100, 600, 850]],
    "pt100-temperature": [[18.52, 60.26, 99.9, 100, 100.1, 119.4, 138.51, 390.49]],
    "remaining-voltage": [[565, 800], [0, 5, 300, 1e9], [2230, 100e3], [1000, 2000]],
    "resistance-unbalance": [[0.412, 41.2], [0.418, 41.8], [0.405, 40.5]],
    "subcooling": [[4, 7.5, 8, 15.9, 16], [-10, 5.5]],
    "superheat": [[3.9, 4, 9.1491, 16, 16.1], [-10, 10]],
    "thermocouple-k-temperature": [[-5.8, -3.554, 0, 1, 4.096, 41.276, 54.8, 60], [-40, 0, 25]],
    "thermocouple-k-voltage": [[-200, -100, 0, 25, 500, 1372], [-40, 0, 25]],
    "vibration-zone": [[0, 1.4, 2.29, 2.8, 3, 4.5, 7.1, 11, 200], [1, 2], [1, 2]],
    "voltage-unbalance": [[0, 462], [0, 463], [0, 455]],
    "winding-temperature": [[80, 0.412], [100, 0.55], [20, -5.5], [225, 234.5, 235]],
}

# One text for each word of the tree that no formula above tries in every way.
TEXTS = [
    "-x", "7 - 2 * x", "x / 3", "(x - 1) ** 2", "(x / 3) ** 9", "min(x, 2, -2)", "max(x, 2, -2)", "abs(-x)", "floor(x)",
    "floor(-x)", "sqrt(abs(x))", "ln(abs(x) + 1)", "exp(-x)", "polynomial(x, [5])", "polynomial(x, [1, -0.1, 1e-3])",
    "m = x * x\nn = m - x\nn / (m + 1)", "1 if x < 1 else 2", "1 if x <= 1 else 2", "1 if x > 1 else 2",
    "1 if x >= 1 else 2", "1 if x == 1 else 2", "1 if not x == 1 else 2", "1 if x > 0 and x < 1.5 else 2",
    "1 if x < 0 or 1 / x > 0.5 else 2", "interpolate(table, x)", "root(t, -4, 4, t ** 3 - x)", "1 / x",
    "1e308 * (x * 10)", "sqrt(x)", "ln(x)", "exp(1000 * x)",
]  # fmt: skip
VALUES = [-1.0, 0.0, 0.3, 1.0, 4.0, 8.5, 100.0]


def current() -> dict[str, Any]:
    """All vectors, as Python works them out."""
    return {
        "trees": [_tree(text, x) for text in TEXTS for x in VALUES],
        "table": AUTHOR_TABLE,
        "formulas": [{"formula": portable(one), "cases": list(_cases(one))} for one in FORMULAS.values()],
    }


def _tree(text: str, x: float) -> dict[str, Any]:
    tree = parse(text, ["x"], ["table"])
    try:
        return {"tree": tree, "x": x, "result": evaluate(tree, {"x": x}, {"table": AUTHOR_TABLE})}
    except FormulaError as error:
        return {"tree": tree, "x": x, "error": type(error).__name__}


def _cases(formula: Formula) -> Iterator[dict[str, Any]]:
    for numbers in (*product(*GRID[formula.name]), *_ends(formula)):
        given = {one.name: float(number) for one, number in zip(formula.inputs, numbers, strict=True)}
        try:
            yield {"given": given, "result": work_out(formula, given, AUTHOR_TABLE if formula.table else ())}
        except OutOfRange as error:
            yield {"given": given, "error": "OutOfRange", "name": error.name}
        except FormulaError as error:
            yield {"given": given, "error": type(error).__name__}


def _ends(formula: Formula) -> Iterator[tuple[float, ...]]:
    """For each input its ends and what lies beyond them, with the last value of the others."""
    usual = [values[-1] for values in GRID[formula.name]]
    for place, one in enumerate(formula.inputs):
        for number in (one.lowest - 1, one.lowest, one.highest, one.highest * 2 + 1):
            yield (*usual[:place], number, *usual[place + 1 :])


def text() -> str:
    """The vectors as the file holds them, one case a line."""
    vectors = current()
    formulas = ",\n".join(
        f'{{"formula": {_json(one["formula"])},\n"cases": [\n{_lines(one["cases"])}\n]}}' for one in vectors["formulas"]
    )
    trees, table = _lines(vectors["trees"]), _json(vectors["table"])
    return f'{{"trees": [\n{trees}\n],\n"table": {table},\n"formulas": [\n{formulas}\n]}}\n'


def _lines(cases: Sequence[Any]) -> str:
    return ",\n".join(map(_json, cases))


def _json(value: Any) -> str:
    return json.dumps(value, ensure_ascii=True, allow_nan=False)


if __name__ == "__main__":
    FILE.write_text(text(), encoding="utf-8")
