"""Groups of words and phrases that mean the same at the machine."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from functools import cached_property

from kbgen.search.normalise import terms

Phrase = tuple[str, ...]
"""The normalised words of a phrase."""


def key(phrase: Phrase) -> str:
    """Return the one word under which the phrase is indexed; no normalised word has an underscore."""
    return "_".join(phrase)


@dataclass(frozen=True)
class Synonyms:
    """Normalised groups; every phrase of a group stands for every other one."""

    groups: tuple[tuple[Phrase, ...], ...]

    @cached_property
    def same(self) -> dict[Phrase, tuple[Phrase, ...]]:
        """Each phrase with all that mean the same, itself among them."""
        found: dict[Phrase, set[Phrase]] = {}
        for group in self.groups:
            for phrase in group:
                found.setdefault(phrase, set()).update(group)
        return {phrase: tuple(sorted(same)) for phrase, same in found.items()}

    def keys_in(self, words: Collection[str]) -> list[str]:
        """Return the keys of the phrases of several words that a line with these words says, in any order."""
        held = set(words)
        return [
            key(phrase)
            for word in sorted(held)
            for phrase in self.by_first.get(word, ())
            if len(phrase) > 1 and held.issuperset(phrase)
        ]

    @cached_property
    def by_first(self) -> dict[str, list[Phrase]]:
        """The phrases that begin with a word, sorted."""
        found: dict[str, list[Phrase]] = {}
        for phrase in sorted(self.same):
            found.setdefault(phrase[0], []).append(phrase)
        return found

    @cached_property
    def words(self) -> tuple[str, ...]:
        """Return every word of every phrase, sorted."""
        return tuple(sorted({word for group in self.groups for phrase in group for word in phrase}))

    def beginning_with(self, prefix: str) -> list[str]:
        """Return the words of the phrases that begin so, sorted."""
        return [word for word in self.words if word.startswith(prefix)]


def normalised(groups: Sequence[Sequence[str]]) -> Synonyms:
    """Normalise the phrases; groups that do not hold two different ones are left out."""
    sets = ({tuple(terms(phrase)) for phrase in group} - {()} for group in groups)
    return Synonyms(tuple(sorted(tuple(sorted(phrases)) for phrases in sets if len(phrases) > 1)))
