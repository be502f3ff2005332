"""The gate finds each kind of fault in a drawing made to have it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kbgen.draw.chart import Shape
from kbgen.draw.drawing import Box, Drawing, EdgeLine, LabelBox, NodeBox
from kbgen.draw.gate import Kind, faults
from kbgen.draw.layout import layout

from .charts import random_chart


def node(name: str, x: float, y: float, shape: Shape = Shape.PROCESS) -> NodeBox:
    return NodeBox(name, shape, Box(x, y, 100, 50), (), (0, 0))


A, B, C = node("a", 100, 10), node("b", 100, 200), node("c", 300, 100)
LABEL = LabelBox(Box(130, 80, 40, 20), ())
LABELLED = EdgeLine("a", "b", (((150, 60), (150, 80)), ((150, 100), (150, 200))), (), False, LABEL)
SOUND = Drawing(500, 300, (A, B, C), (LABELLED,), ())


def kinds(drawing: Drawing) -> set[Kind]:
    return {fault.kind for fault in faults(drawing)}


def with_edge(*legs: tuple[tuple[float, float], ...], source: str = "a", target: str = "b") -> Drawing:
    return replace(SOUND, edges=(EdgeLine(source, target, legs, (), False),))


def test_a_sound_drawing_has_no_faults() -> None:
    assert faults(SOUND) == ()


@pytest.mark.parametrize(
    ("drawing", "kind"),
    [
        (replace(SOUND, width=771), Kind.TOO_WIDE),
        (replace(SOUND, width=390), Kind.OUTSIDE),
        (replace(SOUND, nodes=(A, B, C, node("d", 390, 149))), Kind.NODES_OVERLAP),
        (replace(SOUND, nodes=(A, B, node("c", 160, 95))), Kind.LABEL_ON_NODE),
        (with_edge(((150, 60), (150, 120), (330, 120), (330, 180), (150, 180), (150, 200))), Kind.LINE_THROUGH_NODE),
        (with_edge(((150, 60), (150, 70), (299, 70), (299, 190), (150, 190), (150, 200))), Kind.LINE_THROUGH_NODE),
        (with_edge(((150, 60), (150, 30), (80, 30), (80, 190), (150, 190), (150, 200))), Kind.LINE_THROUGH_NODE),
        (with_edge(((150, 62), (150, 200))), Kind.LOOSE_END),
        (with_edge(((150, 60), (150, 197))), Kind.LOOSE_END),
        (with_edge(((150, 60), (150, 100)), ((150, 110), (150, 200))), Kind.LOOSE_END),
        (with_edge(((150, 60), (160, 200))), Kind.SLANTED),
        (with_edge(((150, 60), (150, 195), (160, 195), (160, 200))), Kind.NO_ROOM_FOR_ARROW),
    ],
)
def test_a_fault_is_found(drawing: Drawing, kind: Kind) -> None:
    assert kind in kinds(drawing)


def test_a_line_through_the_label_of_another_is_found() -> None:
    other = EdgeLine("a", "c", (((160, 60), (160, 90), (350, 90), (350, 100)),), (), False)
    assert Kind.LINE_THROUGH_LABEL in kinds(replace(SOUND, edges=(LABELLED, other)))


def test_a_line_through_its_own_label_is_found() -> None:
    legs = (((150, 60), (150, 80)), ((150, 100), (150, 110), (120, 110), (120, 90), (180, 90), (180, 200)))
    assert Kind.LINE_THROUGH_LABEL in kinds(replace(SOUND, edges=(replace(LABELLED, legs=legs),)))


def test_labels_on_one_another_are_found() -> None:
    second = replace(LABELLED, target="c", label=LabelBox(Box(150, 90, 40, 20), ()))
    assert Kind.LABELS_OVERLAP in kinds(replace(SOUND, edges=(LABELLED, second)))


def test_a_label_far_from_its_question_is_found() -> None:
    nodes = (A, node("b", 100, 900))
    legs = (((150, 60), (150, 800)), ((150, 820), (150, 900)))
    edge = replace(LABELLED, legs=legs, label=LabelBox(Box(130, 800, 40, 20), ()))
    assert Kind.LABEL_FAR in kinds(Drawing(500, 1000, nodes, (edge,), ()))


def test_lines_on_one_another_are_found_unless_they_lead_to_one_target() -> None:
    first = EdgeLine("a", "b", (((150, 60), (150, 200)),), (), False)
    to_c = EdgeLine("a", "c", (((152, 60), (152, 110), (300, 110)),), (), False)
    assert Kind.LINES_COINCIDE in kinds(replace(SOUND, edges=(first, to_c)))
    from_c = EdgeLine("c", "b", (((300, 125), (150, 125), (150, 150)),), ((150, 150), (150, 200)), False)
    assert faults(replace(SOUND, edges=(first, from_c))) == ()


def test_a_line_must_join_one_that_leads_to_its_own_target() -> None:
    trunk = EdgeLine("a", "b", (((150, 60), (150, 200)),), (), False)
    beside = EdgeLine("c", "b", (((300, 125), (170, 125)),), ((170, 125), (170, 200)), False)
    assert Kind.LOOSE_END in kinds(replace(SOUND, edges=(trunk, beside)))
    assert Kind.LOOSE_END in kinds(replace(SOUND, edges=(replace(trunk, source="c"), replace(beside, target="c"))))


@pytest.mark.parametrize("shape", [Shape.DECISION, Shape.PREPARATION, Shape.TERMINATOR, Shape.MANUAL])
def test_the_corner_of_a_box_is_not_the_outline(shape: Shape) -> None:
    nodes = (node("a", 100, 10, shape), B)
    edge = EdgeLine("a", "b", (((101, 60), (101, 200)),), (), False)
    assert Kind.LOOSE_END in kinds(replace(SOUND, nodes=nodes, edges=(edge,)))


def test_a_node_moved_onto_the_lines_of_a_real_drawing_is_found() -> None:
    drawing = layout(random_chart(5, 20))
    moved = drawing.nodes[3]
    box = replace(moved.box, y=moved.box.y + 60)
    nodes = (*drawing.nodes[:3], replace(moved, box=box), *drawing.nodes[4:])
    assert faults(drawing) == ()
    assert faults(replace(drawing, nodes=nodes)) != ()
