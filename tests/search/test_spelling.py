from hypothesis import given
from hypothesis import strategies as st

from kbgen.search.spelling import Correction, Vocabulary, allowed, slips

SHORT = st.text(alphabet="abc", max_size=6)
MOST = st.integers(1, 3)


def distance(a: str, b: str) -> list[int]:
    """Fill in the whole table; the last row holds the distances to all beginnings of `b`."""
    rows = [list(range(len(b) + 1))]
    for at, letter in enumerate(a, start=1):
        row = [at]
        for place, other in enumerate(b, start=1):
            cost = min(rows[-1][place] + 1, row[-1] + 1, rows[-1][place - 1] + (letter != other))
            if at > 1 and place > 1 and letter == b[place - 2] and a[at - 2] == other:
                cost = min(cost, rows[-2][place - 2] + 1)
            row.append(cost)
        rows.append(row)
    return rows[-1]


@given(SHORT, SHORT, MOST)
def test_slips_agree_with_the_whole_table(a: str, b: str, most: int) -> None:
    assert slips(a, b, most) == min(distance(a, b)[-1], most + 1) == slips(b, a, most)
    assert slips(a, b, most, begun=True) == min(*distance(a, b), most + 1)


@given(SHORT, st.lists(SHORT.filter(bool), max_size=8, unique=True), MOST, st.booleans())
def test_corrections_leave_out_none_of_the_nearest(word: str, known: list[str], most: int, unfinished: bool) -> None:
    near = {k: min(distance(word, k)) if unfinished else distance(word, k)[-1] for k in sorted(known)}
    fewest = min(near.values(), default=0)
    wanted = tuple(Correction(k, n) for k, n in near.items() if n <= min(most, fewest + 1))
    assert Vocabulary(known).corrections(word, most, unfinished) == wanted


def test_short_words_and_words_with_digits_are_left_alone() -> None:
    assert [allowed(word) for word in ("fa", "f12c", "fan", "motor", "bearing", "compressor")] == [0, 0, 1, 1, 2, 3]
