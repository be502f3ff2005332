"""Python answers as the vectors say that JavaScript is held to as well."""

from __future__ import annotations

import pytest

from tests.narrowing import vectors


@pytest.mark.parametrize("case", vectors.read(), ids=lambda case: ",".join(case["given"].values()) or "nothing")
def test_python_answers_as_the_shared_vectors_say(case: vectors.Case) -> None:
    found = vectors.answered(vectors.ROOM, case["given"])
    assert vectors.near(found, case["expected"])


def test_the_file_is_up_to_date() -> None:
    assert vectors.model_in_file() == vectors.as_json(vectors.ROOM), "run python -m tests.narrowing.vectors"
