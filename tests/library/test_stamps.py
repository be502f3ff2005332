"""A digest that is remembered is the digest of what the file holds now."""

from __future__ import annotations

import os
import time
from hashlib import sha256
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from kbgen.library.stamps import Stamps


def _age(path: Path, seconds: float = 60) -> None:
    """Let a file have been written some time ago; the time of its last change can only be waited for."""
    then = time.time() - seconds
    os.utime(path, (then, then))


@pytest.fixture
def later(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let files that were just written count as settled."""
    monkeypatch.setattr("kbgen.library.stamps._UNSETTLED", -60_000_000_000)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "a.yaml"
    path.write_bytes(b"one")
    _age(path)
    return path


@pytest.mark.usefixtures("later")
def test_a_file_that_nobody_touched_is_not_read_again(file: Path) -> None:
    first = Stamps(file.parent)
    assert first.digest("a.yaml") == sha256(b"one").hexdigest()
    assert first.has_news
    known = {"a.yaml": (first.seen["a.yaml"][0], "remembered")}
    second = Stamps(file.parent, known)
    assert second.digest("a.yaml") == "remembered"
    assert not second.has_news


def test_a_file_that_was_just_written_is_not_remembered(file: Path) -> None:
    stamps = Stamps(file.parent)
    stamps.digest("a.yaml")
    assert stamps.seen == {} and not stamps.has_news


def _rewritten(file: Path) -> None:
    file.write_bytes(b"two")


def _rewritten_with_its_old_time(file: Path) -> None:
    told = file.stat()
    time.sleep(0.02)
    file.write_bytes(b"two")
    os.utime(file, ns=(told.st_atime_ns, told.st_mtime_ns))


def _replaced_by_an_older_one(file: Path) -> None:
    other = file.with_name("other")
    other.write_bytes(b"two")
    _age(other, 3600)
    other.replace(file)


@pytest.mark.usefixtures("later")
@pytest.mark.parametrize("change", [_rewritten, _rewritten_with_its_old_time, _replaced_by_an_older_one])
def test_a_change_that_keeps_the_size_is_seen(change: object, file: Path) -> None:
    first = Stamps(file.parent)
    first.digest("a.yaml")
    assert callable(change)
    change(file)
    assert Stamps(file.parent, first.seen).digest("a.yaml") == sha256(b"two").hexdigest()


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None, max_examples=50)
@given(changes=st.lists(st.tuples(st.sampled_from("abc"), st.sampled_from([b"one", b"two", b"three"]), st.booleans())))
def test_whatever_is_written_when_the_digest_is_right(changes: list[tuple[str, bytes, bool]], tmp_path: Path) -> None:
    known = {}
    for name, data, is_old in changes:
        path = tmp_path / name
        path.write_bytes(data)
        if is_old:
            _age(path)
        stamps = Stamps(tmp_path, known)
        present = sorted(one.name for one in tmp_path.iterdir())
        for one in present:
            assert stamps.digest(one) == sha256((tmp_path / one).read_bytes()).hexdigest()
        known = stamps.seen


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError):
        Stamps(tmp_path).digest("a.yaml")
