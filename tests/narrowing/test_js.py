"""The browser's scripts calculate what Python does, for models and answers at random."""

from __future__ import annotations

import json
import random
import shutil
import subprocess
from pathlib import Path
from typing import Any

from kbgen.narrowing.data import script
from kbgen.narrowing.fault import Cause, Code, Fault, Look, Symptom
from kbgen.narrowing.model import Model
from kbgen.narrowing.observe import allowing_for_another, model_of
from tests.narrowing.vectors import answered, near

HERE = Path(__file__).parent


def _node(*arguments: str, given: str = "") -> subprocess.CompletedProcess[str]:
    program = shutil.which("node")
    assert program, "node is needed to test the scripts that narrow down"
    return subprocess.run(
        [program, *arguments], input=given, capture_output=True, text=True, encoding="utf-8", timeout=120, check=False
    )


def test_javascript_tests_pass() -> None:
    files = sorted(str(path) for path in (HERE.parent / "js").glob("narrow-*.test.js"))
    assert files
    run = _node("--test", *files)
    assert run.returncode == 0, run.stdout + run.stderr


def _cause(chance: random.Random, symptoms: list[str]) -> Cause:
    named = chance.sample(symptoms, chance.randint(0, len(symptoms)))
    shows = {name: chance.choice((0, 1, round(chance.random(), 2))) for name in named}
    cases = chance.choice((0, 0, chance.randint(1, 60)))
    return Cause("c", round(chance.uniform(0.1, 9), 1), cases, chance.choice((None, shows, shows)))


def _fault(chance: random.Random, number: int) -> Fault:
    symptoms = chance.sample("abcdefgh", chance.randint(1, 5))
    looks = [Look(one, "s", "1", "?", chance.choice((None, 20, 60, 300))) for one in symptoms if chance.random() < 0.4]
    return Fault(
        id=f"f{number}",
        title=f"F{number}",
        times=chance.choice((None, chance.randint(1, 20), 0.5)),
        times_counted=chance.random() < 0.5,
        causes=tuple(_cause(chance, symptoms) for _ in range(chance.randint(1, 6))),
        symptoms=tuple(Symptom(one, f"Symptom {one}") for one in symptoms),
        codes=tuple(
            Code("p", one, chance.random() < 0.5, "", "P") for one in chance.sample("123", chance.randint(0, 2))
        ),
        looks=tuple(looks),
        not_as_it_stands=tuple(one for one in symptoms if chance.random() < 0.2),
    )


def _answers(chance: random.Random, model: Model) -> dict[str, str]:
    names = [one.name for one in model.observations]
    return {
        name: chance.choice(("yes", "no", "later"))
        for name in chance.sample(names, min(len(names), chance.randint(0, 6)))
    }


def test_any_answers_have_the_same_result() -> None:
    chance = random.Random(11)
    known = [model_of(_fault(chance, number) for number in range(chance.randint(1, 9))) for _ in range(60)]
    models = [allowing_for_another(one) if chance.random() < 0.5 else one for one in known]
    asked = [[_answers(chance, model) for _ in range(8)] for model in models]
    given = [{"script": script(model), "asked": some} for model, some in zip(models, asked, strict=True)]
    run = _node(str(HERE / "node" / "answer.js"), given=json.dumps(given))
    assert run.returncode == 0, run.stderr
    answers: list[list[dict[str, Any]]] = json.loads(run.stdout)
    for model, some, theirs in zip(models, asked, answers, strict=True):
        for one, found in zip(some, theirs, strict=True):
            assert near(answered(model, one), found), one
