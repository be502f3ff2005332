"""The shared vectors are those of the present formulas."""

from __future__ import annotations

import json
from typing import Any

import pytest

from kbgen.formulas.registry import FORMULAS
from kbgen.formulas.tree import ARITHMETIC, COMPARISONS, OF_ONE, OF_SEVERAL
from tests.formulas import vectors

RUN = "run python -m tests.formulas.vectors"
STORED = json.loads(vectors.FILE.read_text(encoding="utf-8"))
# What JSON makes of tuples and whole numbers is what it is compared with.
CURRENT = json.loads(json.dumps(vectors.current()))


def _as_close(case: dict[str, Any]) -> dict[str, Any]:
    """A case that equals one whose result differs in nothing but the last places."""
    return {**case, "result": pytest.approx(case["result"], rel=1e-12, abs=1e-9)} if "result" in case else case


def test_trees_are_up_to_date() -> None:
    assert STORED["trees"] == [_as_close(case) for case in CURRENT["trees"]], RUN
    assert STORED["table"] == CURRENT["table"]


@pytest.mark.parametrize("place", range(len(FORMULAS)), ids=FORMULAS)
def test_formulas_are_up_to_date(place: int) -> None:
    stored, present = STORED["formulas"][place], CURRENT["formulas"][place]
    assert stored["formula"] == present["formula"], RUN
    assert stored["cases"] == [_as_close(case) for case in present["cases"]], RUN


def test_every_formula_is_there_with_answers_and_with_errors() -> None:
    assert [one["formula"]["name"] for one in STORED["formulas"]] == list(FORMULAS)
    for one in STORED["formulas"]:
        assert sum("result" in case for case in one["cases"]) >= 3
        assert any("error" in case for case in one["cases"])


def test_every_word_of_the_tree_is_tried() -> None:
    words = {"name", "let", "if", "negative", "power", "polynomial", "interpolate", "root", "and", "or", "not"}
    text = json.dumps(STORED["trees"])
    for word in words | {*ARITHMETIC, *COMPARISONS, *OF_ONE, *OF_SEVERAL}:
        assert f'["{word}", ' in text, word
