from hypothesis import given
from hypothesis import strategies as st

from kbgen.search.kin import kin

FORMS = (
    ("leak", "leaked", "leaking"),
    ("trip", "tripped", "tripping"),
    ("seize", "seized", "seizing"),
    ("hum", "hummed", "humming"),
)


def test_every_form_of_a_verb_leads_to_the_others() -> None:
    for forms in FORMS:
        for form in forms:
            assert {*forms} - {form} <= {*kin(form)}


def test_a_machine_and_what_it_does_are_not_confused() -> None:
    assert "cool" not in kin("cooler")
    assert kin("ring") == kin("spring") == kin("f12") == ()


@given(st.text(alphabet="abdeging", max_size=8))
def test_a_word_is_no_other_form_of_itself(word: str) -> None:
    assert word not in kin(word)
    assert list(kin(word)) == sorted({*kin(word)})
