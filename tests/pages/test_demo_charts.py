"""Every flowchart of the demo passes the gate: no line through a box, no label on a line, none wider than a tablet."""

from __future__ import annotations

from pathlib import Path

import pytest

from kbgen.analysis.energy import energy_states, follow
from kbgen.draw.gate import faults
from kbgen.draw.layout import layout
from kbgen.draw.svg import svg
from kbgen.examine import open_case
from kbgen.library.folder import Folder, read_tables
from kbgen.pages.charts import chart_of
from kbgen.route.unfold import unfold

DEMO = Folder(Path(__file__).parents[2] / "procedures", "procedures")
SHARED, _ = read_tables(DEMO, DEMO.table_files())
FILES = DEMO.procedure_files()


def _chart(file):
    case, _ = open_case(DEMO, file, SHARED)
    assert case is not None
    power = energy_states(follow(unfold(case.route), map(str, case.procedure.before.energy), case.shared.energy))
    return chart_of(case.procedure, case.route, power, SHARED)


@pytest.mark.parametrize("file", FILES, ids=[file.path for file in FILES])
def test_the_chart_passes_the_gate(file) -> None:
    chart = _chart(file)
    drawing = layout(chart)
    assert faults(drawing) == ()
    assert drawing.width <= 770
    assert svg(chart, drawing) == svg(_chart(file), layout(_chart(file)))
