import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kbgen.pictures.callouts import Callout, overlay

CSS = Path(__file__).parents[2] / "site_templates" / "css" / "callouts.css"
NAMESPACE = "{http://www.w3.org/2000/svg}"


def test_the_overlay_covers_the_picture_and_is_hidden_from_readers() -> None:
    root = ET.fromstring(overlay(1200, 800.5, [Callout(1, 0.5, 0.5, "Valve")]))
    assert root.get("viewBox") == "0 0 1200 800.5"
    assert root.get("aria-hidden") == "true"
    assert root.get("focusable") == "false"


def test_the_dot_stands_on_the_target_and_the_badge_beside_it() -> None:
    root = ET.fromstring(overlay(1000, 500, [Callout(7, 0.25, 0.5, "Valve")]))
    (dot,) = root.findall(f"{NAMESPACE}circle[@class='kb-callout-dot']")
    (badge,) = root.findall(f"{NAMESPACE}circle[@class='kb-callout-badge']")
    (text,) = root.findall(f"{NAMESPACE}text")
    assert (dot.get("cx"), dot.get("cy")) == ("250", "250")
    assert badge.get("cx") == text.get("x") != "250"
    assert text.text == "7"


def test_a_number_is_at_least_18_px_high_at_700_px() -> None:
    for width in (700, 1200, 24):
        root = ET.fromstring(overlay(width, width, [Callout(12, 0.1, 0.9, "")]))
        (text,) = root.findall(f"{NAMESPACE}text")
        assert float(text.get("font-size", "")) * 700 / width >= 18


def test_the_label_stays_out_of_the_overlay() -> None:
    assert "alert" not in overlay(100, 100, [Callout(1, 0, 0, "<script>alert(1)</script>")])


@pytest.mark.parametrize(
    ("number", "x", "y"),
    [(1, -0.1, 0.5), (1, 0.5, 1.01), (1, float("nan"), 0.5), (1, 0.5, float("inf")), (0, 0.5, 0.5)],
)
def test_a_callout_outside_the_picture_is_an_error(number: int, x: float, y: float) -> None:
    with pytest.raises(ValueError, match=f"callout {number}"):
        Callout(number, x, y, "")


def test_no_callouts_give_an_empty_overlay() -> None:
    assert len(ET.fromstring(overlay(100, 100, []))) == 0


def test_every_class_has_a_rule_and_every_variable_a_value() -> None:
    css = CSS.read_text(encoding="utf-8")
    root = ET.fromstring(overlay(100, 100, [Callout(1, 0.5, 0.5, "")]))
    for name in sorted({element.get("class", "") for element in root.iter()}):
        assert f".{name}" in css
    for variable in ("ground", "ink", "halo"):
        assert css.count(f"  --kb-callout-{variable}: ") == 3


FRACTION = st.floats(0, 1) | st.sampled_from([0.0, 0.5, 1.0])


@settings(max_examples=60, deadline=None)
@given(st.integers(1, 4000), st.integers(1, 4000), st.lists(st.tuples(FRACTION, FRACTION), max_size=14))
def test_badges_stay_inside_the_picture_and_apart(width: int, height: int, points: list[tuple[float, float]]) -> None:
    callouts = [Callout(number, x, y, "") for number, (x, y) in enumerate(points, 1)]
    svg = overlay(width, height, callouts)
    assert svg == overlay(width, height, callouts)
    badges = ET.fromstring(svg).findall(f"{NAMESPACE}circle[@class='kb-callout-badge']")
    discs = [[float(badge.get(name, "")) for name in ("cx", "cy", "r", "stroke-width")] for badge in badges]
    slack = 1e-3 * max(width, height)
    for place, (x, y, r, halo) in enumerate(discs):
        edge = r + halo / 2 - slack
        assert edge <= x <= width - edge
        assert edge <= y <= height - edge
        for other_x, other_y, *_ in discs[:place]:
            assert ((x - other_x) ** 2 + (y - other_y) ** 2) ** 0.5 >= 2 * edge
