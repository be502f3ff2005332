from __future__ import annotations

from kbgen.draw.chart import Chart, Edge, Node, Shape, Stretch
from kbgen.draw.text_alternative import outline

from .charts import random_chart


def test_a_question_is_told_with_its_answers() -> None:
    nodes = (
        Node("x", Shape.TERMINATOR, "Repaired", "#x", "4"),
        Node("q", Shape.DECISION, "Is the coil iced?", "#q", "3"),
        Node("m", Shape.PROCESS, "Measure the fuse", "#m", "7", stretch=Stretch.LIVE),
    )
    edges = (Edge("q", "x", "Yes"), Edge("q", "m", "No"), Edge("m", "x"))
    entries = outline(Chart("T", "D", "q", nodes, edges, "p"))
    assert [entry.text for entry in entries] == [
        "3 Is the coil iced? Yes: go to 4; No: go to 7.",
        "4 Repaired. End.",
        "7 Measure the fuse (equipment live). Go to 4.",
    ]
    assert [entry.href for entry in entries] == ["#q", "#x", "#m"]


def test_every_node_and_every_answer_is_told() -> None:
    for seed in range(20):
        chart = random_chart(seed, 25)
        texts = [entry.text for entry in outline(chart)]
        assert len(texts) == len(chart.nodes)
        together = "\n".join(texts)
        assert all(edge.label in together and node.text in together for edge in chart.edges for node in chart.nodes)
