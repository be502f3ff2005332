from hypothesis import given
from hypothesis import strategies as st

from kbgen.search.spelling import corrections, one_slip_apart

SHORT = st.text(alphabet="abc", max_size=5)


def slips(word: str) -> set[str]:
    """List by brute force every word that one slip makes of this one."""
    cuts = [(word[:at], word[at:]) for at in range(len(word) + 1)]
    lost = {a + b[1:] for a, b in cuts if b}
    swapped = {a + b[1] + b[0] + b[2:] for a, b in cuts if len(b) > 1}
    exchanged = {a + c + b[1:] for a, b in cuts if b for c in "abc"}
    added = {a + c + b for a, b in cuts for c in "abc"}
    return {word} | lost | swapped | exchanged | added


@given(SHORT, SHORT)
def test_one_slip_agrees_with_brute_force(a: str, b: str) -> None:
    assert one_slip_apart(a, b) == (b in slips(a)) == one_slip_apart(b, a)


def test_short_words_and_words_with_digits_are_left_alone() -> None:
    assert corrections("fam", ["fan"]) == ()
    assert corrections("f12c", ["f12b"]) == ()
    assert corrections("beering", ["bearing", "earring", "steering"]) == ("bearing",)
