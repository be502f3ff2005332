"""The demo is worth reading: no stub, and every feature of the format is in use somewhere."""

from __future__ import annotations

from pathlib import Path

import pytest

from kbgen.examine import open_case
from kbgen.library.folder import Folder, read_tables
from kbgen.model.steps import Ask, Read
from kbgen.model.words import Result, SourceKind

DEMO = Folder(Path(__file__).parents[2] / "procedures", "procedures")
SHARED, _ = read_tables(DEMO, DEMO.table_files())
CASES = [case for file in DEMO.procedure_files() if (case := open_case(DEMO, file, SHARED)[0])]


def _steps(case, kind) -> list:
    return [place.step for place in case.route.places.values() if isinstance(place.step, kind)]


@pytest.mark.parametrize("case", CASES, ids=lambda case: str(case.procedure.id))
def test_a_procedure_is_no_stub(case) -> None:
    assert len(case.route.places) >= 12
    assert len(case.procedure.causes) >= 3
    assert len(_steps(case, (Ask, Read))) >= 2
    assert case.procedure.before.hazards
    sources = {step.source.kind for step in _steps(case, Read)}
    assert sources & {SourceKind.STANDARD, SourceKind.HANDBOOK}


def test_the_demo_covers_the_format() -> None:
    assert len(CASES) >= 10
    assert len({case.procedure.applies.family for case in CASES}) >= 5
    variants = [case for case in CASES if any(one.variant for step in _steps(case, Ask) for one in step.answers)]
    staged = [
        case for case in CASES if any(SHARED.alarms[one.display, one.code].stages for one in case.procedure.alarms)
    ]
    escalating = [case for case in CASES if any(one.result is Result.ESCALATE for one in _ends(case))]
    drawn = [case for case in CASES if any(one.callouts for one in case.procedure.pictures)]
    changing = [case for case in CASES if case.procedure.temporary_changes]
    reading = [case for case in CASES if _steps(case, Read)]
    counts = [len(one) for one in (variants, staged, escalating, drawn, changing, reading)]
    assert all(count >= least for count, least in zip(counts, (3, 2, 1, 4, 2, 3), strict=True)), counts


def _ends(case) -> list:
    return [place.step for place in case.route.places.values() if hasattr(place.step, "result")]
