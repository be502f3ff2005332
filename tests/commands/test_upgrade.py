from collections.abc import Callable
from pathlib import Path

from tests.commands.conftest import Ran

Run = Callable[..., Ran]


def make_old(path: Path) -> bytes:
    """Put a file of the example back into format 0, with comments and Windows line ends."""
    text = path.read_text(encoding="utf-8")
    for after, before in (("kbgen: 1\n", "kbgen: 0 # old\n"), ("\ntitle:", "\nfault:"), ("\nstate:", "\nstatus:")):
        text = text.replace(after, before, 1)
    text = text.replace("  tools:\n", "  tools-needed:  # bring these\n", 1)
    data = b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode("utf-8")
    path.write_bytes(data)
    return data


def test_an_old_file_is_moved_and_checks_clean(base: Path, run: Run) -> None:
    path = base / "conveyors" / "belt-slips.yaml"
    old = make_old(path)
    assert "KB108" in run("check", path).out
    done = run("upgrade")
    assert (done.code, done.err) == (0, "")
    assert "+state: approved" in done.out
    count = len(list(base.rglob("*.yaml")))
    assert f"{count} files looked at, 1 moved to format 1." in done.out
    renamed = old.replace(b"kbgen: 0", b"kbgen: 1").replace(b"\nfault:", b"\ntitle:").replace(b"\nstatus:", b"\nstate:")
    assert path.read_bytes() == renamed.replace(b"  tools-needed:", b"  tools:")
    assert run("check", "--as-of", "2026-10-01").code == 0
    again = run("upgrade", path)
    assert again.out == "1 file looked at, 0 moved to format 1.\n"


def test_a_trial_changes_nothing_and_shows_the_difference(base: Path, run: Run) -> None:
    path = base / "conveyors" / "belt-slips.yaml"
    old = make_old(path)
    done = run("upgrade", "--dry-run", path)
    assert done.code == 0
    changed = [line for line in done.out.splitlines() if line[0] in "+-" and line[:3] not in ("+++", "---")]
    assert changed == [
        "-kbgen: 0 # old",
        "+kbgen: 1 # old",
        "-fault: Belt slips on its drive drum",
        "+title: Belt slips on its drive drum",
        "-status: approved",
        "+state: approved",
        "-  tools-needed:  # bring these",
        "+  tools:  # bring these",
    ]
    assert path.read_bytes() == old


def test_a_file_that_cannot_be_moved_does_not_stop_the_others(base: Path, run: Run) -> None:
    make_old(base / "conveyors" / "belt-stands.yaml")
    newer = base / "conveyors" / "belt-slips.yaml"
    newer.write_text(newer.read_text(encoding="utf-8").replace("kbgen: 1", "kbgen: 7"), encoding="utf-8")
    before = newer.read_bytes()
    done = run("upgrade", base)
    assert done.code == 1
    assert "belt-slips.yaml was left as it is: it is written in format 7, which is newer" in done.err
    assert "belt-stands.yaml: moved from format 0 to format 1." in done.out
    assert newer.read_bytes() == before


def test_a_file_that_is_not_there_is_named(base: Path, run: Run) -> None:
    done = run("upgrade", "elsewhere.yaml")
    assert (done.code, "elsewhere.yaml" in done.err) == (2, True)


def test_bytes_that_are_not_text_are_left_alone(base: Path, run: Run) -> None:
    path = base / "conveyors" / "belt-slips.yaml"
    path.write_bytes(b"kbgen: 0\ntitle: \xff\n")
    done = run("upgrade", path)
    assert (done.code, "not UTF-8" in done.err) == (1, True)
    assert path.read_bytes() == b"kbgen: 0\ntitle: \xff\n"
