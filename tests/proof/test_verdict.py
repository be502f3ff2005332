"""Plain data reach kbgen as their file would: what is judged is what an author could have written."""

from __future__ import annotations

import pytest

from kbgen.library.folder import Folder, read_procedure, read_tables
from kbgen.model.decode import decode
from kbgen.model.fingerprint import fingerprint
from kbgen.model.procedure import Procedure
from tests.proof.bases import Base, bases
from tests.proof.verdict import node_of


@pytest.mark.parametrize("one", bases(), ids=lambda one: one.root.name)
def test_plain_data_say_what_the_file_says(one: Base) -> None:
    folder = Folder(one.root, "")
    shared, _ = read_tables(folder, folder.table_files())
    for file in folder.procedure_files():
        read, _ = read_procedure(folder, file)
        assert read is not None
        made = decode(Procedure, node_of(one.procedures[file.path], file.path))
        assert not made.found
        assert fingerprint(made.record, shared) == fingerprint(read.record, shared)
