"""The shared vectors: what is asked stands in the file; `python -m tests.narrowing.vectors` fills in the answers.

Read the difference before committing it: the answers of Python are what both languages are held to.
"""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

from kbgen.narrowing.data import as_json
from kbgen.narrowing.model import Model
from kbgen.narrowing.narrow import Narrowed, Ranked, narrow
from kbgen.narrowing.question import Outlook, Question
from tests.narrowing.samples import ROOM, place

FILE = Path(__file__).parent.parent / "vectors" / "narrowing.json"
GIVEN = {"yes": True, "no": False}

Case = dict[str, Any]


def answered(model: Model, given: dict[str, str]) -> dict[str, Any]:
    """Return what Python says to answers by name ("yes", "no" or "later") in the form that both languages compare."""
    places = {place(model, name): answer for name, answer in given.items()}
    answers = {number: GIVEN[answer] for number, answer in places.items() if answer in GIVEN}
    return plain(narrow(model, answers, [number for number, answer in places.items() if answer not in GIVEN]))


def plain(found: Narrowed) -> dict[str, Any]:
    """Return the result of narrowing down in the form that the browser's has."""
    return {
        "ranking": [_ranked(one) for one in found.ranking],
        "cases": found.cases,
        "counted": found.counted,
        "question": found.question and _question(found.question),
    }


def _ranked(one: Ranked) -> dict[str, Any]:
    return {
        "fault": one.fault,
        "chance": one.chance,
        "words": one.words,
        "range": {"low": one.range.low, "high": one.range.high},
        "cause": one.cause,
        "causeShare": one.cause_share,
        "grounds": {"given": one.grounds.given, "assumed": one.grounds.assumed},
    }


def _question(one: Question) -> dict[str, Any]:
    return {
        "observation": one.observation,
        "bits": one.bits,
        "seconds": one.seconds,
        "ifThere": _outlook(one.if_there),
        "ifNot": _outlook(one.if_not),
    }


def _outlook(one: Outlook) -> dict[str, Any]:
    return {"fault": one.fault, "chance": one.chance}


def read() -> list[Case]:
    """Return the cases of the file."""
    cases: list[Case] = json.loads(FILE.read_text(encoding="utf-8"))["cases"]
    return cases


def model_in_file() -> dict[str, Any]:
    """Return the data of the model that JavaScript loads."""
    model: dict[str, Any] = json.loads(FILE.read_text(encoding="utf-8"))["model"]
    return model


def near(one: Any, other: Any) -> bool:
    """Tell whether two results are the same but for the rounding of figures."""
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(near(value, other[key]) for key, value in one.items())
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(near, one, other))
    if isinstance(one, float) and isinstance(other, int | float) and not isinstance(other, bool):
        return math.isclose(one, other, rel_tol=1e-9, abs_tol=1e-9)
    return type(one) is type(other) and one == other


def text_of(cases: list[Case]) -> str:
    """Return the file with the model and with what Python answers to each case."""
    made = [{**case, "expected": answered(ROOM, case["given"])} for case in cases]
    lines = ",\n".join(f"    {json.dumps(case)}" for case in made)
    return f'{{\n  "model": {json.dumps(as_json(ROOM))},\n  "cases": [\n{lines}\n  ]\n}}\n'


if __name__ == "__main__":
    FILE.write_text(text_of(read()), encoding="utf-8")
