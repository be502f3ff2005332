"""What is kept of a check says the same as the check itself, whatever changes in between."""

from __future__ import annotations

import sqlite3
from collections.abc import Container, Sequence
from pathlib import Path

import pytest

from kbgen.cache import Cache, no_cache
from kbgen.check import kb203_unusable_picture
from kbgen.diagnostics import Diagnostic
from kbgen.examine import Examination, examine
from kbgen.library.folder import SourceFile
from kbgen.pictures.load import load
from kbgen.results import Checked, Results, packed
from tests.check.knowledge_base import AS_OF, SLIPS, STANDS, TABLES, KnowledgeBase


def _run(base: KnowledgeBase, path: Path) -> Examination:
    cache = Cache(sqlite3.connect(path))
    examination = examine(base.folder, AS_OF, cache)
    cache.save()
    return examination


@pytest.fixture
def settled(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let stamps of files that were just written be remembered, so that the tests go the way of a second check."""
    monkeypatch.setattr("kbgen.library.stamps._UNSETTLED", -60_000_000_000)


CHANGES = [
    (SLIPS, "not-available: {go: tighten}", "not-available: {go: tigthen}"),
    (STANDS, "id: belt-stands", "id: belt-stops"),
    (SLIPS, "id: belt-slips", "# moved down\nid: belt-slips"),
    (TABLES, "- id: flashlight", "- id: voltage-tester"),
    (STANDS, "id: belt-stops", "id: belt-stands"),
    (TABLES, "- id: voltage-tester\n", "- id: flashlight\n"),
    (SLIPS, "not-available: {go: tigthen}", "not-available: {go: tighten}"),
]


@pytest.mark.usefixtures("settled")
def test_every_check_of_a_long_edit_finds_what_a_fresh_one_finds(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    base.publish()
    _run(base, tmp_path / "cache")
    seen: set[tuple[str, ...]] = set()
    for file, good, bad in CHANGES:
        base.write(file, base.text(file).replace(good, bad, 1))
        for _ in range(2):
            kept, fresh = _run(base, tmp_path / "cache"), examine(base.folder, AS_OF, no_cache())
            assert (kept.files, kept.digests, kept.found) == (fresh.files, fresh.digests, fresh.found)
            assert repr(kept.digests) == repr(fresh.digests)
        seen.add(tuple(one.rule.code for one in kept.found))
    assert len(seen) >= 4


@pytest.mark.usefixtures("settled")
def test_a_file_that_was_not_changed_is_blamed_for_what_another_lost(tmp_path: Path) -> None:
    base = KnowledgeBase.copy_to(tmp_path)
    assert _run(base, tmp_path / "cache").found == ()
    base.change(STANDS, "id: belt-stands", "id: belt-stops")
    found = {(one.rule.code, one.at.path) for one in _run(base, tmp_path / "cache").found}
    assert ("KB210", SLIPS) in found


@pytest.mark.usefixtures("settled")
def test_pictures_are_judged_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    judged: list[str] = []

    def judge(path: str, data: bytes) -> object:
        judged.append(path)
        return load(path, data)

    monkeypatch.setattr(kb203_unusable_picture, "load", judge)
    base = KnowledgeBase.copy_to(tmp_path)
    drum = "conveyors/pictures/drum.svg"
    _run(base, tmp_path / "cache")
    assert judged.count("pictures/drum.svg") == 1
    base.write(SLIPS, base.text(SLIPS) + "# one\n")
    _run(base, tmp_path / "cache")
    assert judged.count("pictures/drum.svg") == 1
    base.write(drum, "no picture")
    for line in ("# two\n", "# three\n"):
        assert {one.rule.code for one in _run(base, tmp_path / "cache").found} == {"KB203"}
        base.write(SLIPS, base.text(SLIPS) + line)
    assert judged.count("pictures/drum.svg") == 3


def _checked(*found: Diagnostic) -> Checked:
    return Checked(found, (("p.svg", "1"),), packed(None))


def test_results_hold_for_the_bytes_and_for_what_they_depend_on(tmp_path: Path) -> None:
    file = SourceFile("a.yaml", "digest")
    _put(tmp_path / "cache", [file], {"a.yaml"})
    cache = Cache(sqlite3.connect(tmp_path / "cache"))
    assert Results(cache, "tables").get(file) == _checked()
    assert Results(cache, "other tables").get(file) is None
    assert Results(cache, "tables").get(SourceFile("a.yaml", "other")) is None
    assert Results(cache, "tables").get(SourceFile("b.yaml", "digest")) is None


def test_files_that_are_gone_are_not_kept(tmp_path: Path) -> None:
    files = [SourceFile(f"{number}.yaml", "digest") for number in range(200)]
    _put(tmp_path / "cache", files, {file.path for file in files[::2]})
    kept = Results(Cache(sqlite3.connect(tmp_path / "cache")), "tables")
    assert [kept.get(file) is None for file in files] == [False, True] * 100


def _put(path: Path, files: Sequence[SourceFile], present: Container[str]) -> None:
    cache = Cache(sqlite3.connect(path))
    results = Results(cache, "tables")
    for file in files:
        results.put(file, _checked())
    results.save(present)
    cache.save()
