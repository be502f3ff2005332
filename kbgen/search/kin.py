"""Other forms of a verb: "leak", "leaked" and "leaking". kin.js does the same.

The forms stay words of their own, so that a bearing never becomes a bear; one only stands in for another with less
weight. Endings that name another thing (cool, cooler) are no forms.
"""

import re

_ENDING = re.compile("(ing|ed)$")
_DOUBLED = re.compile("([bdgklmnprtv])\\1$")
_VOWEL = re.compile("[aeiouy]")
_SHORTEST = 3


def kin(word: str) -> tuple[str, ...]:
    """Return what other forms of the word would look like, sorted; most of them are no words at all."""
    if len(word) < _SHORTEST or any(letter in "0123456789" for letter in word):
        return ()
    found = {form for base in _bases(word) for form in _forms(base)}
    return tuple(sorted(found - {word}))


def _bases(word: str) -> list[str]:
    stem = _ENDING.sub("", word)
    if stem == word:
        return [word]
    if len(stem) < _SHORTEST or not _VOWEL.search(stem):
        return []
    return [stem, stem + "e", _DOUBLED.sub(r"\1", stem)]


def _forms(base: str) -> list[str]:
    short = base.removesuffix("e")
    return [
        base,
        base + "ing",
        base + "ed",
        short + "ing",
        short + "ed",
        base + base[-1] + "ing",
        base + base[-1] + "ed",
    ]
