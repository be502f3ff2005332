import json
import random
import time
from typing import Any

from kbgen.search.entry import Code, Entry, Symptom
from kbgen.search.index import as_json, build, script

from .corpus import CHANNELS, ENTRIES, SYNONYMS
from .vectors import INDEX

HOSTILE = "</script><!-- \u2028 \u2029 \\ \" ' ${x} \U0001f527"


def _data(text: str) -> Any:
    return json.loads(text[text.index("searchData = ") + len("searchData = ") : text.rindex(";")])


def test_script_carries_the_index() -> None:
    assert _data(script(INDEX)) == json.loads(json.dumps(as_json(INDEX)))


def test_script_text_cannot_break_out() -> None:
    entry = Entry(HOSTILE, "procedure", HOSTILE, "", "", (Code(HOSTILE, "", ""),), (), (HOSTILE,), "", ())
    text = script(build([entry], [(HOSTILE, "other")]))
    assert text.isascii()
    assert "<" not in text
    assert text.count("\n") == 1
    assert json.loads(_data(text)["entries"])[2] == HOSTILE


def test_order_of_entries_and_synonyms_makes_no_difference() -> None:
    shuffled = list(ENTRIES)
    random.Random(7).shuffle(shuffled)
    turned = [tuple(reversed(group)) for group in reversed(SYNONYMS)]
    assert script(build(shuffled, turned, reversed(CHANNELS))) == script(INDEX)


def test_nothing_to_index_is_an_index_too() -> None:
    assert as_json(build([], []))["entries"] == ""


def test_ten_thousand_entries_are_indexed_in_seconds() -> None:
    entries = _many(10_000)
    started = time.process_time()
    build(entries, SYNONYMS)
    assert time.process_time() - started < 12  # about 4 s on an idle machine; catches a change of order only


def _many(count: int) -> list[Entry]:
    chance = random.Random(1)
    vocabulary = ["".join(chance.choices("abcdefghilmnoprstu", k=chance.randint(3, 9))) for _ in range(3000)]

    def text(size: int) -> str:
        return " ".join(chance.choices(vocabulary, k=size))

    return [
        Entry(
            href=f"procedures/{number}/",
            kind="procedure",
            title=text(6),
            equipment=text(3),
            family=text(1),
            codes=(Code(f"E-{number:04d}", text(2), text(4)),),
            symptoms=(Symptom(text(6), (text(5),)), Symptom(text(6), ())),
            words=(text(20),),
            state="approved",
            hazards=("electric shock",),
        )
        for number in range(count)
    ]
