import pytest

from . import vectors

CASES = [
    pytest.param(name, group, case, id=f"{group}-{place}")
    for name in vectors.ANSWERS
    for group, cases in vectors.read(name).items()
    for place, case in enumerate(cases)
]


@pytest.mark.parametrize(("name", "group", "case"), CASES)
def test_python_answers_as_the_shared_vectors_say(name: str, group: str, case: dict[str, object]) -> None:
    assert vectors.ANSWERS[name][group](case) == case["expected"]


@pytest.mark.parametrize("name", sorted(vectors.ANSWERS))
def test_every_group_of_vectors_has_an_answer_and_cases(name: str) -> None:
    groups = vectors.read(name)
    assert set(groups) == set(vectors.ANSWERS[name])
    assert all(groups.values())


def test_every_file_of_vectors_is_used() -> None:
    assert {path.name for path in vectors.FOLDER.glob("search-*.json")} == {*vectors.ANSWERS, vectors.CORPUS.name}


def test_prebuilt_index_is_up_to_date() -> None:
    assert vectors.CORPUS.read_text(encoding="utf-8") == vectors.corpus_text(), "run python -m tests.search.vectors"
