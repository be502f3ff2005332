"""The file for the browser."""

from __future__ import annotations

import json
from dataclasses import replace

from kbgen.narrowing.data import as_json, script
from kbgen.narrowing.observe import allowing_for_another, model_of
from tests.narrowing.samples import FAN, ICED, ROOM, SENSOR


def test_the_script_is_ascii_and_cannot_end_its_element() -> None:
    hostile = replace(SENSOR, title="</script><!-- \u2028 é", hazards=("<b>",))
    text = script(model_of([hostile, FAN]))
    assert text.isascii()
    assert "<" not in text
    assert text.count("\n") == 1
    literal = text[text.index("JSON.parse(") + len("JSON.parse(") : text.rindex(")")]
    assert json.loads(json.loads(literal)) == as_json(model_of([hostile, FAN]))


def test_the_script_is_the_same_whatever_the_order() -> None:
    assert script(allowing_for_another(model_of([FAN, SENSOR, ICED]))) == script(ROOM)


def test_what_may_not_be_asked_has_no_way_of_asking() -> None:
    rows = {row[0]: row[6] for row in as_json(ROOM)["observations"]}
    assert rows["fan-stands.hums"] is None
    assert rows["sensor-wrong.jumps"] == [30]
    assert rows["room-panel:RM 31"] == [60]
    assert rows["iced-up.room-warm"][2:5] == ["feel", "2", "Is it warm?"]
