"""A knowledge base that is read on all cores is found to be what it is when it is read in one process."""

from __future__ import annotations

from pathlib import Path

import pytest

from kbgen import cores
from kbgen.cache import no_cache
from kbgen.examine import examine
from kbgen.library.folder import Folder
from tests.benchmarks.generate import write_knowledge_base
from tests.check.knowledge_base import AS_OF


def _spoil(path: Path, good: str, bad: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert good in text
    path.write_text(text.replace(good, bad, 1), encoding="utf-8")


@pytest.fixture(scope="module")
def base(tmp_path_factory: pytest.TempPathFactory) -> Folder:
    root = tmp_path_factory.mktemp("many")
    files = write_knowledge_base(130, root)
    for path in files[::10]:
        _spoil(path, "id: fixed", "id: mended")
    for path in files[5::40]:
        _spoil(path, "title:", "title: [")
    return Folder(root, "many")


def test_the_result_does_not_depend_on_the_cores(base: Folder, monkeypatch: pytest.MonkeyPatch) -> None:
    spread = examine(base, AS_OF, no_cache())
    monkeypatch.setattr(cores, "_WORTH_SPREADING", 1000)
    alone = examine(base, AS_OF, no_cache())
    assert {one.rule.code for one in alone.found} >= {"KB102", "KB201"}
    assert (spread.files, spread.found, spread.digests) == (alone.files, alone.found, alone.digests)
    assert repr(spread.digests) == repr(alone.digests)


def test_cases_are_kept_in_this_process(base: Folder) -> None:
    kept: dict[str, object] = {}
    examined = examine(base, AS_OF, no_cache(), keep=kept.__setitem__)
    assert list(kept) == [digest.path for digest in examined.digests]
