"""The markup: safe whatever the words are, named, focusable, and free of colours and script."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from kbgen.draw.chart import Chart, Edge, Node, Shape, Stretch, Tone
from kbgen.draw.layout import layout
from kbgen.draw.legend import legend_svg
from kbgen.draw.svg import svg

from .charts import random_chart

HOSTILE = "</title><script>x()</script> \" onload='x()' & <b>"


def parsed(markup: str) -> ElementTree.Element:
    return ElementTree.fromstring(markup)


def one_step(**fields: object) -> Chart:
    node = Node("a", Shape.DECISION, "Is the coil iced?", "#a", "3")
    nodes = (Node(**{**node.__dict__, **fields}), Node("b", Shape.TERMINATOR, "Ready", "#b", "4"))
    return Chart("Coil", "Find out why.", "a", nodes, (Edge("a", "b", "Yes"),), "p1")


def test_hostile_words_stay_words() -> None:
    nodes = (
        Node("a", Shape.DECISION, HOSTILE, HOSTILE, "<b>&"),
        Node("b", Shape.TERMINATOR, HOSTILE, HOSTILE),
    )
    chart = Chart(HOSTILE, HOSTILE, "a", nodes, (Edge("a", "b", HOSTILE),), "p'\"<")
    root = parsed(svg(chart, layout(chart)))
    tags = {element.tag for element in root.iter()}
    assert tags <= {"svg", "title", "desc", "defs", "marker", "g", "a", "path", "rect", "text", "tspan", "use"}
    attributes = {name for element in root.iter() for name in element.attrib}
    assert not any(name.startswith("on") or name == "style" for name in attributes)
    assert root.findtext("title") == HOSTILE


def test_title_and_description_come_first_and_name_the_chart() -> None:
    chart = random_chart(1, 10)
    root = parsed(svg(chart, layout(chart)))
    assert [child.tag for child in root][:2] == ["title", "desc"]
    assert root.get("role") == "group"
    assert root.get("aria-labelledby") == root[0].get("id")
    assert root.get("aria-describedby") == root[1].get("id")


def test_every_node_is_a_link_named_by_its_words() -> None:
    chart = random_chart(4, 30)
    links = parsed(svg(chart, layout(chart))).findall(".//a")
    assert [link.get("href") for link in links] == [node.href for node in chart.nodes]
    for node, link in zip(chart.nodes, links, strict=True):
        shown = re.sub(r"\s+", " ", "".join(link.itertext())).strip()
        assert shown == f"{node.number} {node.text}".strip()
        assert (link.get("aria-label") or "").startswith(shown)


@pytest.mark.parametrize(
    ("fields", "words", "mark"),
    [
        ({"stretch": Stretch.LIVE}, "equipment live", "#p1-live"),
        ({"stretch": Stretch.SAFE}, "equipment isolated and proved dead", "#p1-safe"),
        ({"hazard": True}, "warning", "#p1-hazard"),
        ({"tone": Tone.GOOD, "shape": Shape.TERMINATOR}, "fault cleared", "#p1-good"),
        ({"tone": Tone.HANDOVER, "shape": Shape.TERMINATOR}, "hand over", "#p1-handover"),
    ],
)
def test_a_state_is_told_by_a_mark_and_in_words(fields: dict[str, object], words: str, mark: str) -> None:
    chart = one_step(**fields)
    link = parsed(svg(chart, layout(chart))).find(".//a")
    assert link is not None
    assert words in (link.get("aria-label") or "")
    assert [use.get("href") for use in link.findall("use")] == [mark]


def test_ids_start_with_the_prefix_and_references_hit_them() -> None:
    markup = svg(random_chart(9, 40), layout(random_chart(9, 40)))
    ids = re.findall(r'\bid="([^"]+)"', markup)
    assert len(ids) == len(set(ids))
    assert all(name.startswith("c9-") for name in ids)
    referred = re.findall(r'<use href="#([^"]+)"|url\(#([^)]+)\)', markup)
    assert {a or b for a, b in referred} <= set(ids)


def test_no_colour_is_written_into_the_markup() -> None:
    chart = random_chart(2, 40)
    for markup in (svg(chart, layout(chart)), legend_svg()):
        assert not re.search(r'\b(fill|stroke|style|color)="', markup)


def test_loops_are_drawn_apart_from_the_way_forward() -> None:
    nodes = (Node("a", Shape.PROCESS, "A", "#a"), Node("b", Shape.DECISION, "B", "#b"))
    chart = Chart("T", "D", "a", nodes, (Edge("a", "b"), Edge("b", "a", "Again")), "p")
    root = parsed(svg(chart, layout(chart)))
    counts = {group.get("class"): len(group) for group in root.findall("g")}
    assert counts["lines"] == 1
    assert counts["lines back"] == 1


def test_the_legend_shows_every_shape_and_says_which_are_not_of_the_standard() -> None:
    root = parsed(legend_svg())
    words = ["".join(text.itertext()) for text in root.findall(".//text")]
    assert len(root.findall(".//*[@class='shape']")) == len(Shape) + 5
    own = words.index("Conventions of these charts, not of ISO 5807")
    assert words.index("Symbols of ISO 5807:1985") < own < words.index("Wait: box with one rounded side")
