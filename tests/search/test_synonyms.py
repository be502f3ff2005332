from kbgen.search.synonyms import normalised


def test_groups_are_normalised_sorted_and_need_two_phrases() -> None:
    groups = normalised([("Puddles", "puddle"), ("noise", "is noisy", "The Noise"), ("the", "hum")]).groups
    assert groups == ((("noise",), ("noisy",)),)


def test_phrases_of_overlapping_groups_do_not_chain() -> None:
    same = normalised([("a1", "b1"), ("b1", "c1")]).same
    assert same[("b1",)] == (("a1",), ("b1",), ("c1",))
    assert same[("a1",)] == (("a1",), ("b1",))


def test_phrase_is_in_a_line_whatever_the_order_of_its_words() -> None:
    synonyms = normalised([("will not run", "no movement")])
    assert synonyms.keys_in(["run", "pump", "not"]) == ["not_run"]
    assert synonyms.keys_in(["run", "no"]) == []
