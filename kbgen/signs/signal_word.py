"""Signal words and how grave each is.

Words and their order of gravity follow ANSI Z535.6 as quoted by public secondary sources
(docs.etas.com, ES166 safety messages; electromark.com); the meanings are in our own words.
"""

from enum import Enum


class SignalWord(Enum):
    """A signal word; the value is the word as printed."""

    DANGER = "DANGER"
    WARNING = "WARNING"
    CAUTION = "CAUTION"
    NOTICE = "NOTICE"

    @property
    def meaning(self) -> str:
        """What follows if the hazard is not avoided, for the legend of a page."""
        return _MEANINGS[self]

    @property
    def gravity(self) -> int:
        """3 for DANGER down to 0 for NOTICE."""
        return 3 - list(SignalWord).index(self)

    @property
    def is_about_injury(self) -> bool:
        """False for NOTICE, which concerns property only and so carries no alert symbol."""
        return self is not SignalWord.NOTICE

    @property
    def panel_class(self) -> str:
        """CSS class of the safety message box."""
        return f"kb-{self.value.lower()}"


_MEANINGS: dict[SignalWord, str] = {
    SignalWord.DANGER: "Unless the hazard is avoided, somebody will be killed or badly hurt.",
    SignalWord.WARNING: "Unless the hazard is avoided, somebody could be killed or badly hurt.",
    SignalWord.CAUTION: "Unless the hazard is avoided, somebody could be slightly or moderately hurt.",
    SignalWord.NOTICE: "Nobody is expected to be hurt, but equipment, product or other property could be damaged.",
}


def gravest(words: tuple[SignalWord, ...]) -> SignalWord:
    """The word that heads a message grouping several hazards. Raises ValueError if `words` is empty."""
    return max(words, key=lambda word: word.gravity)
