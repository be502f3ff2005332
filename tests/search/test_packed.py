import re

from hypothesis import given
from hypothesis import strategies as st

from kbgen.search.packed import Table, pack, packed_table, steps, unpack

NUMBERS = st.lists(st.integers(0, 2**40), max_size=30)
KEYS = st.text(alphabet="abcdé_~.09", min_size=1, max_size=5)


@given(NUMBERS)
def test_numbers_come_back(numbers: list[int]) -> None:
    assert unpack(pack(numbers)) == numbers
    assert re.fullmatch("[0-9A-Za-z_-]*", pack(numbers))


@given(st.lists(st.integers(0, 999), unique=True))
def test_steps_lead_back_to_the_numbers(numbers: list[int]) -> None:
    climbed = 0
    for step, number in zip(steps(sorted(numbers)), sorted(numbers), strict=True):
        climbed += step
        assert climbed == number


@given(st.dictionaries(KEYS, NUMBERS), KEYS)
def test_table_answers_as_the_dictionary(rows: dict[str, list[int]], asked: str) -> None:
    table = Table(packed_table(rows))
    assert table.keys == sorted(rows)
    assert table.row(asked) == rows.get(asked, [])
    assert table.holds(asked) == (asked in rows)
    assert table.beginning_with(asked[0]) == sorted(key for key in rows if key.startswith(asked[0]))
