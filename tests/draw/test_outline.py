"""Line ends by the layout's formulas lie on the gate's polygons."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from kbgen.draw.chart import Shape
from kbgen.draw.drawing import Box
from kbgen.draw.gate_geometry import on_outline, outline
from kbgen.draw.outline import bottom_at, left_at, right_at, top_at

BOXES = st.builds(Box, st.floats(0, 500), st.floats(0, 500), st.integers(104, 260), st.integers(48, 160))
SHAPES = st.sampled_from(list(Shape))


@given(SHAPES, BOXES, st.floats(0.02, 0.98))
def test_upright_lines_end_on_the_outline(shape: Shape, box: Box, share: float) -> None:
    x = box.x + share * box.width
    polygon = outline(shape, box)
    assert on_outline((x, top_at(shape, box, x)), polygon, 1.0)
    assert on_outline((x, bottom_at(shape, box, x)), polygon, 1.0)


@given(SHAPES, BOXES, st.floats(0.45, 0.55))
def test_level_lines_end_on_the_outline(shape: Shape, box: Box, share: float) -> None:
    y = box.y + share * box.height
    polygon = outline(shape, box)
    assert on_outline((left_at(shape, box, y), y), polygon, 1.0)
    assert on_outline((right_at(shape, box, y), y), polygon, 1.0)
