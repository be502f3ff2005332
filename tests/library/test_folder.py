"""Which files belong to a knowledge base, and the ledger of its addresses."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbgen.library.folder import Folder, SourceFile, read_procedure, read_tables
from kbgen.library.ledger import parse, text_of
from tests.check.knowledge_base import SLIPS, STANDS, KnowledgeBase


@pytest.fixture
def base(tmp_path: Path) -> KnowledgeBase:
    return KnowledgeBase.copy_to(tmp_path)


def written(base: KnowledgeBase, folder: str) -> list[str]:
    """The YAML files that the example has below a folder, in the order of their paths."""
    return [path.relative_to(base.root).as_posix() for path in sorted((base.root / folder).rglob("*.yaml"))]


def listed(base: KnowledgeBase) -> list[str]:
    return [one.path for one in base.folder.procedure_files()]


def test_tables_and_procedures_are_told_apart_by_their_folder(base: KnowledgeBase) -> None:
    assert [one.path for one in base.folder.table_files()] == written(base, "tables")
    assert listed(base) == written(base, "conveyors")
    assert {SLIPS, STANDS} <= set(listed(base))


def test_files_come_in_the_order_of_their_folders(base: KnowledgeBase) -> None:
    for name in ("b-c.yaml", "b/a.yaml", "b/c/a.yaml", "b c.yaml", "a.yaml"):
        (base.root / "conveyors" / name).parent.mkdir(parents=True, exist_ok=True)
        base.write(f"conveyors/{name}", "kbgen: 1\n")
    assert listed(base) == written(base, "conveyors")
    assert [path.relative_to(base.root).as_posix() for path in base.folder.procedure_paths()] == listed(base)


@pytest.mark.parametrize(
    "hidden", [".git/x.yaml", "_drafts/x.yaml", "conveyors/.x.yaml", "conveyors/_x.yaml", "conveyors/x.yml.bak"]
)
def test_hidden_files_are_passed_over(base: KnowledgeBase, hidden: str) -> None:
    before = listed(base)
    (base.root / hidden).parent.mkdir(exist_ok=True)
    base.write(hidden, "kbgen: 1\n")
    assert listed(base) == before


def test_a_link_out_of_the_knowledge_base_is_not_followed(base: KnowledgeBase, tmp_path: Path) -> None:
    (tmp_path / "outside.yaml").write_text("kbgen: 1\n", encoding="utf-8")
    before = listed(base)
    (base.root / "conveyors/outside.yaml").symlink_to(tmp_path / "outside.yaml")
    (base.root / "conveyors/twin.yaml").symlink_to(base.root / STANDS)
    (base.root / "conveyors/away").symlink_to(tmp_path)
    assert listed(base) == sorted([*before, "conveyors/twin.yaml"])


def test_findings_name_files_as_the_user_sees_them(base: KnowledgeBase) -> None:
    folder = Folder(base.root, "procedures")
    assert folder.shown(SLIPS) == f"procedures/{SLIPS}"
    assert base.folder.shown(SLIPS) == SLIPS


def test_a_broken_table_file_is_left_out_and_reported(base: KnowledgeBase) -> None:
    base.write("tables/broken.yaml", "a: [")
    shared, found = read_tables(base.folder, base.folder.table_files())
    assert [(one.rule.code, one.at.path) for one in found] == [("KB102", "tables/broken.yaml")]
    assert len(shared.files) == len(written(base, "tables")) - 1 and "q1" in shared.points


def test_a_broken_procedure_is_none(base: KnowledgeBase) -> None:
    base.write(SLIPS, "a: [")
    decoded, found = read_procedure(base.folder, base.folder.procedure_files()[0])
    assert decoded is None and [one.rule.code for one in found] == ["KB102"]


def test_a_file_that_changes_after_it_was_listed_is_not_taken_for_what_it_was(base: KnowledgeBase) -> None:
    file = base.folder.procedure_files()[0]
    assert base.folder.read(file) == (base.root / file.path).read_bytes()
    base.write(file.path, base.text(file.path) + "\n")
    with pytest.raises(OSError, match="changed while it was being checked"):
        base.folder.read(file)


def test_the_hash_of_a_file_follows_its_bytes(base: KnowledgeBase) -> None:
    before = base.folder.procedure_files()[0].digest
    assert base.folder.procedure_files()[0].digest == before
    base.write(SLIPS, base.text(SLIPS) + "\n")
    assert base.folder.procedure_files()[0].digest != before


ADDRESSES = st.from_regex(r"[a-z0-9-]{1,9}(#[a-z0-9.-]{1,9})?", fullmatch=True)


@given(st.lists(ADDRESSES))
def test_a_ledger_reads_back_sorted_and_without_repeats(addresses: list[str]) -> None:
    text = text_of(addresses)
    read = parse("addresses.txt", text)
    assert [str(one) for one in read] == sorted(set(addresses))
    lines = text.splitlines()
    assert all(lines[one.at.line][: one.at.end_column] == str(one) for one in read)


def test_blank_lines_and_comments_are_no_addresses() -> None:
    (address,) = parse("addresses.txt", "# head\n\n  \nbelt-slips#isolate.tell\n")
    assert (address.procedure, address.step, address.at.line) == ("belt-slips", "isolate.tell", 3)


def test_a_picture_that_leads_out_of_the_knowledge_base_is_not_there(tmp_path: Path) -> None:
    secret = tmp_path / "secret.svg"
    secret.write_text("<svg/>")
    root = tmp_path / "base"
    (root / "pictures").mkdir(parents=True)
    (root / "pictures" / "out.svg").symlink_to(secret)
    (root / "pictures" / "in.svg").write_text("<svg/>")
    folder, file = Folder(root, "base"), SourceFile("a.yaml", "")
    assert folder.read_beside(file, "pictures/in.svg") == b"<svg/>"
    with pytest.raises(OSError):
        folder.read_beside(file, "pictures/out.svg")
