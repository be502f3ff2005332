"""A copy of the example knowledge base that a test may change and examine."""

from __future__ import annotations

import datetime
import shutil
from dataclasses import dataclass
from pathlib import Path

from kbgen.cache import no_cache
from kbgen.diagnostics import Diagnostic
from kbgen.examine import Examination, examine, open_case
from kbgen.library.folder import Folder
from kbgen.library.ledger import text_of
from kbgen.model.fingerprint import fingerprint

EXAMPLE = Path(__file__).parents[2] / "kbgen" / "example"
AS_OF = datetime.date(2026, 11, 1)
SLIPS = "conveyors/belt-slips.yaml"
STANDS = "conveyors/belt-stands.yaml"
TABLES = "tables/conveyors.yaml"


@dataclass(frozen=True)
class KnowledgeBase:
    root: Path

    @classmethod
    def copy_to(cls, folder: Path) -> KnowledgeBase:
        shutil.copytree(EXAMPLE, folder / "kb")
        return cls(folder / "kb")

    @property
    def folder(self) -> Folder:
        return Folder(self.root, "")

    def text(self, file: str) -> str:
        return (self.root / file).read_text(encoding="utf-8")

    def write(self, file: str, text: str) -> None:
        (self.root / file).write_text(text, encoding="utf-8")

    def change(self, file: str, good: str, bad: str) -> KnowledgeBase:
        text = self.text(file)
        assert text.count(good) == 1, f"{good!r} stands {text.count(good)} times in {file}"
        self.write(file, text.replace(good, bad))
        return self

    def publish(self) -> None:
        digests = self.examine().digests
        pages = [digest.id for digest in digests]
        self.write(
            "addresses.txt", text_of(pages + [f"{one.id}#{anchor}" for one in digests for anchor in one.anchors])
        )

    def examine(self) -> Examination:
        return examine(self.folder, AS_OF, no_cache())

    def found(self, code: str) -> list[Diagnostic]:
        return [one for one in self.examine().found if one.rule.code == code]

    def codes(self) -> set[str]:
        return {one.rule.code for one in self.examine().found}

    def fingerprint(self, file: str) -> str:
        examination = self.examine()
        source = next(one for one in examination.files if one.path == file)
        case, _ = open_case(self.folder, source, examination.shared)
        assert case is not None
        return fingerprint(case.procedure, case.shared)
