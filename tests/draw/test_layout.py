"""Every chart is laid out without a fault, and always in the same way."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from kbgen.draw.chart import Chart, Edge, Node, Shape
from kbgen.draw.gate import faults
from kbgen.draw.layout import layout
from kbgen.draw.svg import svg

from .charts import random_chart

_DIGESTS = """
import hashlib
from draw.charts import random_chart
from kbgen.draw.layout import layout
from kbgen.draw.svg import svg
charts = [random_chart(seed, 8 + seed) for seed in range(24)]
print(hashlib.sha256("".join(svg(c, layout(c)) for c in charts).encode()).hexdigest())
"""


def chart_of(shapes: dict[str, Shape], edges: list[tuple[str, str, str]]) -> Chart:
    nodes = tuple(Node(name, shape, f"Step {name}", f"#{name}") for name, shape in shapes.items())
    return Chart("Test", "A test.", next(iter(shapes)), nodes, tuple(Edge(*e) for e in edges), "t")


@pytest.mark.parametrize("block", range(6))
def test_random_charts_have_no_faults(block: int) -> None:
    found = {}
    for seed in range(block * 50, block * 50 + 50):
        bad = faults(layout(random_chart(seed, 8 + seed % 53)))
        if bad:
            found[seed] = bad
    assert found == {}


@pytest.mark.parametrize("size", [12, 30, 60])
def test_charts_with_questions_of_six_answers_have_no_faults(size: int) -> None:
    for seed in range(8):
        assert faults(layout(random_chart(seed, size, most_answers=6))) == ()


def test_two_processes_write_the_same_bytes() -> None:
    paths = [str(Path(__file__).parents[1]), str(Path(__file__).parents[2])]
    digests = set()
    for hash_seed in ("1", "2"):
        environment = {"PYTHONPATH": ":".join(paths), "PYTHONHASHSEED": hash_seed}
        run = subprocess.run(
            [sys.executable, "-c", _DIGESTS], env=environment, capture_output=True, text=True, check=True
        )
        digests.add(run.stdout)
    assert len(digests) == 1


def test_a_single_node_is_a_chart() -> None:
    drawing = layout(chart_of({"a": Shape.TERMINATOR}, []))
    assert faults(drawing) == ()
    assert drawing.edges == ()
    assert drawing.gaps == ()


def test_edges_between_the_same_nodes_become_one_with_both_answers() -> None:
    chart = chart_of(
        {"a": Shape.DECISION, "b": Shape.PROCESS}, [("a", "b", "Yes"), ("a", "b", "No"), ("a", "b", "Yes")]
    )
    (edge,) = layout(chart).edges
    assert edge.label is not None
    assert " ".join(line.text for line in edge.label.lines) == "Yes / No"


def test_a_loop_is_marked_and_leads_up() -> None:
    chart = chart_of(
        {"a": Shape.PROCESS, "b": Shape.DECISION, "c": Shape.TERMINATOR},
        [("a", "b", ""), ("b", "a", "Again"), ("b", "c", "Done")],
    )
    drawing = layout(chart)
    assert {(e.source, e.target) for e in drawing.edges if e.back} == {("b", "a")}
    tops = {node.node: node.box.y for node in drawing.nodes}
    assert tops["a"] < tops["b"] < tops["c"]
    assert faults(drawing) == ()


@pytest.mark.parametrize("label", ["", "Not yet"])
def test_a_node_may_lead_to_itself(label: str) -> None:
    chart = chart_of(
        {"a": Shape.DELAY, "b": Shape.DECISION, "c": Shape.TERMINATOR},
        [("a", "b", ""), ("b", "b", label), ("b", "c", "Done")],
    )
    assert faults(layout(chart)) == ()


def test_a_part_that_cannot_be_reached_is_drawn_too() -> None:
    chart = chart_of({"a": Shape.PROCESS, "b": Shape.TERMINATOR, "x": Shape.PROCESS}, [("a", "b", "")])
    drawing = layout(chart)
    assert {node.node for node in drawing.nodes} == {"a", "b", "x"}
    assert faults(drawing) == ()


@pytest.mark.parametrize("shape", list(Shape))
def test_every_shape_takes_text_of_ninety_characters(shape: Shape) -> None:
    text = "Compare the reading with the value on the plate and write both down on the job sheet now"
    nodes = (Node("a", shape, text, "#a", "12", hazard=True), Node("b", Shape.TERMINATOR, "End", "#b"))
    drawing = layout(Chart("T", "D", "a", nodes, (Edge("a", "b"),), "t"))
    assert faults(drawing) == ()
    assert drawing.nodes[0].box.width <= 300


def test_an_absent_target_is_refused() -> None:
    with pytest.raises(ValueError, match="absent nodes: z"):
        layout(chart_of({"a": Shape.PROCESS}, [("a", "z", "")]))


def test_repeated_ids_are_refused() -> None:
    nodes = (Node("a", Shape.PROCESS, "A", "#"), Node("a", Shape.PROCESS, "B", "#"))
    with pytest.raises(ValueError, match="two nodes with one id"):
        layout(Chart("T", "D", "a", nodes, (), "t"))


def test_cuts_for_printing_miss_nodes_and_labels() -> None:
    for seed in range(12):
        drawing = layout(random_chart(seed, 30))
        boxes = [n.box for n in drawing.nodes] + [e.label.box for e in drawing.edges if e.label]
        assert len(drawing.gaps) > 8
        for gap in drawing.gaps:
            assert not any(box.y < gap < box.bottom for box in boxes)


def test_a_node_takes_about_half_a_kilobyte() -> None:
    chart = random_chart(3, 60)
    assert len(svg(chart, layout(chart)).encode()) < 1000 * 60


def test_a_number_too_long_to_show_is_refused() -> None:
    nodes = (Node("a", Shape.PROCESS, "A", "#", "1.2.3.4.5.6.7.8.9.10.11"),)
    with pytest.raises(ValueError, match="too long to show"):
        layout(Chart("T", "D", "a", nodes, (), "t"))
