"""What each answer of a check gets, rule by rule."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbgen.analysis.replies import Reply, even_shares, shares_when_gone, shares_while_there

WET, DRY = frozenset({"wet"}), frozenset({"dry"})
SILENT = Reply()
LAST = Reply(last_resort=True)


def there(replies: list[Reply], **finds: float) -> list[float]:
    return list(shares_while_there("wet", replies, finds))


@pytest.mark.parametrize(
    ("replies", "finds", "shares"),
    [
        ([Reply(confirms=WET), SILENT, LAST], {}, [1, 0, 0]),
        ([Reply(confirms=WET), SILENT, LAST], {"wet": 0.9}, [0.9, 0.1, 0]),
        ([Reply(confirms=WET), SILENT, SILENT, LAST], {"wet": 0.8}, [0.8, 0.1, 0.1, 0]),
        ([Reply(confirms=WET), Reply(confirms=WET | DRY), SILENT, LAST], {"wet": 0.8}, [0.4, 0.4, 0.2, 0]),
        ([Reply(confirms=DRY), SILENT, LAST], {"dry": 0.9}, [0, 1, 0]),
        ([Reply(rules_out=WET), SILENT, LAST], {}, [0, 1, 0]),
        ([SILENT, SILENT, LAST], {}, [0.5, 0.5, 0]),
    ],
    ids=["confirmed", "as surely as stated", "the rest evenly", "two confirm", "another", "ruled out", "nothing said"],
)
def test_what_the_author_said(replies: list[Reply], finds: dict[str, float], shares: list[float]) -> None:
    assert there(replies, **finds) == pytest.approx(shares)


@pytest.mark.parametrize(
    ("replies", "finds", "shares"),
    [
        ([Reply(confirms=WET), Reply(rules_out=WET), LAST], {"wet": 0.9}, [0.9, 0.1, 0]),
        ([Reply(confirms=WET), Reply(rules_out=WET), Reply(confirms=DRY), LAST], {"wet": 0.9}, [0.9, 0.1, 0, 0]),
        ([Reply(confirms=WET), Reply(confirms=DRY), LAST], {"wet": 0.9}, [0.9, 0.1, 0]),
        ([Reply(rules_out=WET), Reply(confirms=DRY), LAST], {}, [0, 0, 1]),
        ([Reply(confirms=WET), LAST], {"wet": 0.9}, [0.9, 0.1]),
        ([Reply(rules_out=WET), Reply(confirms=DRY)], {}, [0.5, 0.5]),
    ],
    ids=["missed", "missed, not mistaken", "mistaken", "cannot tell", "found or cannot tell", "all speak against it"],
)
def test_where_no_answer_is_left_that_says_nothing(
    replies: list[Reply], finds: dict[str, float], shares: list[float]
) -> None:
    assert there(replies, **finds) == pytest.approx(shares)


@pytest.mark.parametrize(
    ("replies", "finds", "shares"),
    [
        ([Reply(accepted=True), SILENT, SILENT, LAST], {"wet": 0.8}, [0.2, 0.4, 0.4, 0]),
        ([Reply(rules_out=WET), SILENT, LAST], {"wet": 0.7}, [0.3, 0.7, 0]),
        ([SILENT, SILENT, LAST], {"wet": 0.7}, [0.5, 0.5, 0]),
        ([Reply(accepted=True), SILENT, LAST], {"dry": 0.8}, [1, 0, 0]),
        ([Reply(rules_out=DRY), SILENT, LAST], {"dry": 0.8}, [1, 0, 0]),
        ([Reply(accepted=True), SILENT, LAST], {}, [0.5, 0.5, 0]),
        ([Reply(accepted=True), Reply(confirms=DRY), SILENT, LAST], {}, [1, 0, 0, 0]),
    ],
    ids=["not accepted", "not ruled out", "no telling", "accepted", "reassured", "first look", "finds by confirming"],
)
def test_finds_without_an_answer_that_confirms(
    replies: list[Reply], finds: dict[str, float], shares: list[float]
) -> None:
    assert there(replies, **finds) == pytest.approx(shares)


@pytest.mark.parametrize(
    ("replies", "shares"),
    [
        ([Reply(ends_with=frozenset()), SILENT, LAST], [0, 1, 0]),
        ([Reply(ends_with=DRY), SILENT, LAST], [0, 1, 0]),
        ([Reply(ends_with=WET), SILENT, LAST], [0.5, 0.5, 0]),
        ([Reply(breaks_off=True), SILENT, LAST], [0, 1, 0]),
        ([Reply(breaks_off=True), Reply(ends_with=frozenset()), LAST], [1, 0, 0]),
        ([Reply(repairs=DRY), SILENT, LAST], [0, 1, 0]),
        ([Reply(repairs=DRY), Reply(repairs=WET), LAST], [0, 1, 0]),
        ([Reply(repairs=DRY), Reply(breaks_off=True), LAST], [1, 0, 0]),
        ([Reply(repairs=DRY), Reply(ends_with=DRY), LAST], [1, 0, 0]),
    ],
    ids=["fixed", "of another", "of this one", "no call for help", "still there", "repair of another",
         "repair of this one", "carried on", "repaired in vain"],
)  # fmt: skip
def test_where_the_answers_lead(replies: list[Reply], shares: list[float]) -> None:
    assert there(replies) == pytest.approx(shares)


@pytest.mark.parametrize(
    ("replies", "shares"),
    [
        ([Reply(away=0), Reply(away=2), LAST], [1, 0, 0]),
        ([Reply(away=0), Reply(away=0), Reply(), LAST], [0.5, 0.5, 0, 0]),
        ([Reply(accepted=True, away=3), Reply(away=1), LAST], [1, 0, 0]),
        ([Reply(confirms=WET, away=0), Reply(away=1), LAST], [0, 1, 0]),
        ([Reply(shows_symptom=True, away=0), Reply(away=1), LAST], [0, 1, 0]),
        ([Reply(breaks_off=True), SILENT, LAST], [0, 1, 0]),
        ([LAST, LAST], [0.5, 0.5]),
    ],
)
def test_once_the_cause_is_gone(replies: list[Reply], shares: list[float]) -> None:
    assert list(shares_when_gone(replies)) == pytest.approx(shares)


def test_a_proof_succeeds() -> None:
    assert even_shares([SILENT, LAST]) == (1, 0)


SOME = st.frozensets(st.sampled_from(["wet", "dry"]))
REPLIES = st.lists(
    st.builds(
        Reply, SOME, SOME, st.booleans(), st.booleans(), st.booleans(), st.none() | SOME, st.booleans(),
        st.none() | SOME, st.none() | st.integers(0, 3),
    ),
    min_size=1,
    max_size=5,
)  # fmt: skip


@given(REPLIES, st.dictionaries(st.sampled_from(["wet", "dry"]), st.floats(0, 1)))
def test_shares_are_chances(replies: list[Reply], finds: dict[str, float]) -> None:
    for shares in (shares_while_there("wet", replies, finds), shares_when_gone(replies), even_shares(replies)):
        assert len(shares) == len(replies)
        assert all(share >= 0 for share in shares)
        assert sum(shares) == pytest.approx(1)
