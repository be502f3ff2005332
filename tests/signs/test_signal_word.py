import pytest

from kbgen.signs.signal_word import SignalWord, gravest


def test_gravity_falls_from_danger_to_notice() -> None:
    by_gravity = sorted(SignalWord, key=lambda word: -word.gravity)
    assert [word.value for word in by_gravity] == ["DANGER", "WARNING", "CAUTION", "NOTICE"]
    assert len({word.gravity for word in SignalWord}) == 4


@pytest.mark.parametrize(
    ("word", "must", "must_not"),
    [
        # ANSI Z535.6 as quoted by docs.etas.com and electromark.com:
        # will or could; death or serious injury, minor or moderate injury; not injury.
        (SignalWord.DANGER, ["will", "killed"], ["could", "property"]),
        (SignalWord.WARNING, ["could", "killed"], ["will", "property"]),
        (SignalWord.CAUTION, ["could", "slightly or moderately"], ["will", "killed", "property"]),
        (SignalWord.NOTICE, ["Nobody", "property"], ["killed"]),
    ],
)
def test_meaning(word: SignalWord, must: list[str], must_not: list[str]) -> None:
    assert all(part in word.meaning for part in must)
    assert not any(part in word.meaning for part in must_not)


def test_gravest_word_heads_a_group() -> None:
    assert gravest((SignalWord.NOTICE, SignalWord.WARNING, SignalWord.CAUTION)) is SignalWord.WARNING
    with pytest.raises(ValueError):
        gravest(())


def test_only_property_damage_has_no_alert_symbol() -> None:
    assert [word for word in SignalWord if not word.is_about_injury] == [SignalWord.NOTICE]
