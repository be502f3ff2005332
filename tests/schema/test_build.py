import copy
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from kbgen.model.procedure import Procedure
from kbgen.model.steps import STEP_KINDS
from kbgen.schema.build import FILES, as_text, procedure_schema
from tests.schema.files import PROCEDURES, ROOT, TABLES, decoder_accepts, load, record_of, schema_accepts, validator

SLIPS = ROOT / "kbgen" / "example" / "conveyors" / "belt-slips.yaml"


@pytest.mark.parametrize("name", FILES)
def test_the_shipped_schema_is_up_to_date(name: str) -> None:
    assert (ROOT / "kbgen" / "schema" / name).read_text(encoding="utf-8") == as_text(FILES[name]())


@pytest.mark.parametrize("name", FILES)
def test_the_schema_is_valid_and_every_reference_in_it_leads_somewhere(name: str) -> None:
    schema = FILES[name]()
    Draft202012Validator.check_schema(schema)
    text = as_text(schema)
    assert all(f'"#/$defs/{one}"' in text for one in schema["$defs"])


@pytest.mark.parametrize("path", [*PROCEDURES, *TABLES], ids=lambda path: path.relative_to(ROOT).as_posix())
def test_every_file_of_the_example_and_the_demo_is_accepted(path: Path) -> None:
    errors = validator(record_of(path)).iter_errors(load(path.read_text(encoding="utf-8")))
    assert [f"{one.json_path}: {one.message}" for one in errors] == []


BROKEN = {
    "unknown key": ("revision: 2", "revision: 2\nauthor: someone"),
    "misspelt key in a step": ("        takes: 4 min", "        takse: 4 min"),
    "missing key": ("title: Belt slips on its drive drum\n", ""),
    "missing key in a step": ("        unit: mm\n", ""),
    "step without a kind": ("do: Wipe drum and belt dry.", "note: Wipe drum and belt dry."),
    "step of two kinds": ("do: Wipe drum and belt dry.", "do: Wipe it dry.\n        wait: 5 min"),
    "key of another kind of step": ("do: Wipe drum and belt dry.", "do: Wipe it dry.\n        bands: []"),
    "unknown word": ("state: approved", "state: finished"),
    "unknown word in a map": ("{conveyor-mains: verified}", "{conveyor-mains: dead}"),
    "word in place of a list": ("variants: all", "variants: none"),
    "text in place of a list": ("also: [drum turns, belt stands]", "also: drum turns"),
    "list in place of text": ("title: Belt slips on its drive drum", "title: [Belt slips]"),
    "group in place of text": ("title: Belt slips on its drive drum", "title: {what: Belt slips}"),
    "nothing in place of a value": ("title: Belt slips on its drive drum", "title:"),
    "list that is empty": ("record: [The deflection that was measured]", "record: []"),
    "empty list in place of a word": ("permissions: none", "permissions: []"),
    "name with capitals": ("id: belt-slips", "id: Belt slips"),
    "revision in words": ("revision: 2", "revision: two"),
    "revision of zero": ("revision: 2", "revision: 0"),
    "part of a revision": ("revision: 2", "revision: 2.5"),
    "time in words": ("takes: 4 min", "takes: four minutes"),
    "time without a unit": ("takes: 4 min", "takes: 4"),
    "interval in days": ("every: 12 months", "every: 12 days"),
    "date with a month too many": ("last: 2026-09-14", 'last: "2026-13-14"'),
    "chance above one": ("{belt-lags: 0.9}", "{belt-lags: 1.9}"),
    "path that leaves the folder": ("file: pictures/drum.svg", "file: ../../drum.svg"),
    "reading without a number": ("above: 20", "above: much"),
    "neither yes nor no": ("accepted: yes", "accepted: maybe"),
    "call-out without a number": ("number: 1,", "number: one,"),
}


@pytest.mark.parametrize(("good", "bad"), BROKEN.values(), ids=BROKEN)
def test_a_broken_file_is_refused_by_schema_and_decoder(good: str, bad: str) -> None:
    text = SLIPS.read_text(encoding="utf-8")
    assert good in text
    broken = text.replace(good, bad, 1)
    assert not decoder_accepts(Procedure, broken)
    assert not schema_accepts(Procedure, broken)


WRITTEN_OTHERWISE = {
    "number as text": ("revision: 2", 'revision: "2"'),
    "text that is a number": ("trade: Mechanics", "trade: 7"),
    "text that is a yes": ("trade: Mechanics", "trade: Yes"),
    "name that is a number": ("id: belt-lags\n", "id: 12\n"),
    "yes as true": ("accepted: yes", "accepted: true"),
    "yes in quotes": ("accepted: yes", 'accepted: "Yes"'),
    "list in place of all": ("serials: all", "serials: [1 to 20]"),
    "time in two parts": ("takes: 4 min", "takes: 1 h 30min"),
    "reading with a unit": ("above: 20", "above: 2.5e1 mm"),
    "interval in years": ("every: 12 months", "every: 1 year"),
    "path without a folder": ("file: pictures/drum.svg", "file: drum..v2.svg"),
}


@pytest.mark.parametrize(("one", "other"), WRITTEN_OTHERWISE.values(), ids=WRITTEN_OTHERWISE)
def test_other_ways_to_write_a_value_are_accepted_by_schema_and_decoder(one: str, other: str) -> None:
    text = SLIPS.read_text(encoding="utf-8")
    assert one in text
    changed = text.replace(one, other, 1)
    assert decoder_accepts(Procedure, changed)
    assert schema_accepts(Procedure, changed)


def test_every_kind_of_step_is_described() -> None:
    described = procedure_schema()["$defs"]
    for kind in STEP_KINDS:
        assert described[kind.__name__]["description"]
        assert kind.starts_with in described[kind.__name__]["required"]


def test_no_two_records_share_a_name() -> None:
    for schema in (make() for make in FILES.values()):
        assert len({one["description"] for one in schema["$defs"].values()}) == len(schema["$defs"])


def groups(value: Any) -> list[dict[str, Any]]:
    inside = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    below = [group for one in inside for group in groups(one)]
    return [value, *below] if isinstance(value, dict) and value else below


DATA = {path: load(path.read_text(encoding="utf-8")) for path in [*PROCEDURES, *TABLES]}

DUMPER = getattr(yaml, "CSafeDumper", yaml.SafeDumper)


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_schema_and_decoder_agree_when_keys_are_taken_away_or_renamed(data: st.DataObject) -> None:
    path = data.draw(st.sampled_from(list(DATA)))
    content = copy.deepcopy(DATA[path])
    for _ in range(data.draw(st.integers(1, 2))):
        found = groups(content)
        group = found[data.draw(st.integers(0, len(found) - 1))]
        key = data.draw(st.sampled_from(list(group)))
        value = group.pop(key)
        name = data.draw(st.sampled_from([None, key + "x", key[:-1] or "x", "note", "takes", "ask", "also", "id"]))
        if name is not None and name not in group:
            group[name] = value
    text = yaml.dump(content, Dumper=DUMPER, allow_unicode=True, sort_keys=False)
    record = record_of(path)
    assert validator(record).is_valid(content) == decoder_accepts(record, text)
