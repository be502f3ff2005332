"""Results that are kept say the same as fresh ones, and are dropped when what they were made from has changed."""

from __future__ import annotations

import os
import sqlite3
import time
from pathlib import Path

import pytest

from kbgen.cache import Cache, open_cache
from kbgen.examine import Examination, examine
from tests.check.knowledge_base import AS_OF, SLIPS, TABLES, KnowledgeBase


class Asked:
    """Counts what had to be read anew."""

    def __init__(self) -> None:
        self.read: list[str] = []

    def __call__(self, path: str, case: object) -> None:
        self.read.append(path)


def _run(base: KnowledgeBase, path: Path) -> tuple[Examination, list[str]]:
    asked, cache = Asked(), Cache(sqlite3.connect(path))
    examination = examine(base.folder, AS_OF, cache, keep=asked)
    cache.save()
    return examination, asked.read


@pytest.fixture
def base(tmp_path: Path) -> KnowledgeBase:
    return KnowledgeBase.copy_to(tmp_path)


def test_a_second_run_reads_nothing_and_finds_the_same(base: KnowledgeBase, tmp_path: Path) -> None:
    base.change(SLIPS, "not-available: {go: tighten}", "not-available: {go: tigthen}")
    first, read = _run(base, tmp_path / "cache")
    second, again = _run(base, tmp_path / "cache")
    assert read == [file.path for file in first.files] and again == []
    assert second.found == first.found and second.digests == first.digests
    assert [digest.named.at for digest in second.digests] == [digest.named.at for digest in first.digests]


@pytest.mark.parametrize("file", [SLIPS, "conveyors/pictures/drum.svg"])
def test_a_change_is_seen(base: KnowledgeBase, tmp_path: Path, file: str) -> None:
    _run(base, tmp_path / "cache")
    base.write(file, base.text(file) + "\n")
    assert _run(base, tmp_path / "cache")[1] == [SLIPS]


def test_all_is_read_anew_when_a_table_changes(base: KnowledgeBase, tmp_path: Path) -> None:
    _, read = _run(base, tmp_path / "cache")
    base.write(TABLES, base.text(TABLES) + "\n")
    assert _run(base, tmp_path / "cache")[1] == read


def test_a_picture_that_vanishes_is_found_missing(base: KnowledgeBase, tmp_path: Path) -> None:
    assert _run(base, tmp_path / "cache")[0].found == ()
    (base.root / "conveyors/pictures/drum.svg").unlink()
    assert [one.rule.code for one in _run(base, tmp_path / "cache")[0].found] == ["KB203"]


def test_results_nobody_asks_for_are_dropped(tmp_path: Path) -> None:
    cache = Cache(sqlite3.connect(tmp_path / "cache"))
    cache.put("old", 1)
    cache.save()
    for _ in range(6):
        cache = Cache(sqlite3.connect(tmp_path / "cache"))
        cache.save()
    assert Cache(sqlite3.connect(tmp_path / "cache")).get("old") is None


def test_what_a_build_needs_outlives_any_number_of_checks(tmp_path: Path) -> None:
    cache = Cache(sqlite3.connect(tmp_path / "cache"), "build")
    cache.put("page", 1)
    cache.put("both", 2)
    cache.save()
    for _ in range(9):
        cache = Cache(sqlite3.connect(tmp_path / "cache"), "check")
        assert cache.get("both") == 2
        cache.save()
    cache = Cache(sqlite3.connect(tmp_path / "cache"), "build")
    assert (cache.get("page"), cache.get("both")) == (1, 2)


def test_a_damaged_cache_is_begun_anew(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("kbgen.cache.user_cache_path", lambda name: tmp_path / name)
    cache = open_cache("example")
    cache.put("key", "value")
    cache.save()
    (path,) = (tmp_path / "kbgen").iterdir()
    assert open_cache("example").get("key") == "value"
    path.write_bytes(b"no database" * 100)
    assert open_cache("example").get("key") is None


def test_a_folder_that_cannot_be_used_means_no_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "kbgen").write_text("a file", encoding="utf-8")
    monkeypatch.setattr("kbgen.cache.user_cache_path", lambda name: tmp_path / name)
    assert open_cache("example").get("key") is None


def test_two_runs_at_once_do_not_disturb_each_other(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("kbgen.cache.user_cache_path", lambda name: tmp_path / name)
    monkeypatch.setattr("kbgen.cache._PATIENCE", 0.1)
    first = open_cache("example")
    first.put("key", "value")
    (path,) = (tmp_path / "kbgen").iterdir()
    other = sqlite3.connect(path)
    other.execute("BEGIN EXCLUSIVE")
    first.save()
    held = open_cache("example")
    assert held.get("key") is None
    held.save()
    other.rollback()
    assert open_cache("example").get("key") is None


def test_caches_that_nobody_uses_any_more_are_removed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("kbgen.cache.user_cache_path", lambda name: tmp_path / name)
    old, young = tmp_path / "kbgen/old.sqlite", tmp_path / "kbgen/young.sqlite"
    old.parent.mkdir()
    for path, age in ((old, 31), (young, 29)):
        path.touch()
        then = time.time() - age * 24 * 3600
        os.utime(path, (then, then))
    open_cache("example").save()
    assert (old.exists(), young.exists()) == (False, True)
