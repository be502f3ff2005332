import re

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from kbgen.search.codes import base, candidates, keys
from kbgen.search.entry import Code, Entry
from kbgen.search.index import SearchIndex, build
from kbgen.search.query import find

SEPARATORS = st.sampled_from(["", " ", "-", "_", ".", ":", " - ", "–"])
LETTERS = st.text(alphabet="ABEFKLRX", min_size=1, max_size=3)
NUMBERS = st.integers(0, 99999).map(str)
CHANNELS = st.sampled_from(["", "/1", "/22", "#3", " / 4", " #5"])


@st.composite
def runs_of_a_code(draw: st.DrawFn) -> list[str]:
    shape = draw(st.sampled_from(["ln", "nl", "lnl", "n", "lnln", "nln", "l"]))
    return [draw(LETTERS if kind == "l" else NUMBERS) for kind in shape]


def typed(draw: st.DrawFn, runs: list[str]) -> str:
    """Spell the runs of a code in some other way."""
    spelled = [
        "0" * draw(st.integers(0, 3)) + run if run.isdigit() else draw(st.sampled_from([run.lower(), run.upper()]))
        for run in runs
    ]
    text = spelled[0]
    for run in spelled[1:]:
        text += draw(SEPARATORS) + run
    return text


def index_of(*codes: str) -> SearchIndex:
    return build([entry(code) for code in codes], ())


def entry(code: str) -> Entry:
    return Entry(code, "procedure", "Title", "", "", (Code(code, "Panel", "text"),), (), (), "approved", ())


@settings(deadline=None)
@given(st.data(), runs_of_a_code(), CHANNELS)
def test_every_spelling_of_a_code_finds_it_first(data: st.DataObject, runs: list[str], channel: str) -> None:
    stored = data.draw(st.composite(typed)(runs)) + channel
    asked = data.draw(st.composite(typed)(runs)) + data.draw(CHANNELS)
    results = find(index_of(stored), asked)
    assert [result.entry.href for result in results] == [stored]
    assert results[0].reasons[0].parts[0].text == stored
    assert results[0].reasons[0].parts[0].marked


@settings(deadline=None)
@given(st.data(), runs_of_a_code())
def test_the_number_alone_finds_the_code(data: st.DataObject, runs: list[str]) -> None:
    numbers = [run for run in runs if run.isdigit()]
    assume(len(numbers) == 1)
    asked = "0" * data.draw(st.integers(0, 3)) + numbers[0]
    assert find(index_of("".join(runs)), asked)


@settings(deadline=None)
@given(runs_of_a_code(), runs_of_a_code())
def test_another_code_is_not_taken_for_it(runs: list[str], others: list[str]) -> None:
    def plain(some: list[str]) -> list[str]:
        return [str(int(run)) if run.isdigit() else run for run in some]

    assume(plain(runs) != plain(others) and runs[0].isalpha() and others[0].isalpha())
    assert keys("-".join(runs)).full.isdisjoint(keys("-".join(others)).full)


@settings(deadline=None)
@given(st.text(max_size=12))
def test_a_code_has_the_keys_of_its_base(code: str) -> None:
    assert keys(code) == keys(base(code))


@settings(deadline=None)
@given(st.text(max_size=40))
def test_candidates_lie_within_the_query_longest_first(text: str) -> None:
    found = candidates(text)
    lengths = [candidate.end - candidate.start for candidate in found]
    assert lengths == sorted(lengths, reverse=True)
    assert all(key and re.fullmatch(r"[^\W_]+(\.[^\W_]+)*", key) for candidate in found for key in candidate.keys)


def test_full_code_comes_before_the_code_that_only_shares_the_number() -> None:
    index = index_of("A-07", "07", "B-07")
    assert [result.entry.href for result in find(index, "7")] == ["07", "A-07", "B-07"]
    assert [result.entry.href for result in find(index, "b 7")] == ["B-07"]


def test_channel_is_not_run_together_with_the_code() -> None:
    index = index_of("E07#2", "E72")
    assert [result.entry.href for result in find(index, "E72")] == ["E72"]
    assert [result.entry.href for result in find(index, "E07#9")] == ["E07#2"]


def test_code_is_found_while_it_is_typed() -> None:
    index = index_of("K-2140")
    assert all(find(index, "K-2140"[:length]) for length in range(3, 7))
