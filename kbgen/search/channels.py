"""Which axis, unit or channel a query names beside a code, as in "E-07/ch2", "E-07 #2" or "A E-07". channels.js too."""

import re
from collections.abc import Iterator, Sequence

from kbgen.search import codes
from kbgen.search.codes import Candidate
from kbgen.search.entry import Channel
from kbgen.search.normalise import ALNUM, composed
from kbgen.search.tables import CHANNEL

_WORD = f"(?:(?:{'|'.join(sorted(CHANNEL, key=len, reverse=True))})[.]?[ ]*)?"
_AFTER = re.compile(rf"[ ]*([-/#:.]|[ ])[ ]*{_WORD}({ALNUM}+)(?!{ALNUM})", re.IGNORECASE)
_BEFORE = re.compile(rf"(?<!{ALNUM})({ALNUM}+)[-/#:. ]+$")
_SURE = "/#"


def channel_named(text: str, code: Candidate, display: str, channels: Sequence[Channel]) -> tuple[str, str]:
    """Return the mark of a channel beside a code, and what it serves where that is known; both empty if none is named.

    A mark that the display is not known to show counts only after "/" or "#".
    """
    whole = composed(text)
    after, before = _AFTER.match(whole, code.end), _BEFORE.search(whole[: code.start])
    marks = [match.group(place) for match, place in ((after, 2), (before, 1)) if match]
    for mark in marks:
        serves = "; ".join(_serving(mark, display, channels))
        if serves:
            return mark, serves
    return (marks[0], "") if after and after.group(1) in _SURE else ("", "")


def _serving(mark: str, display: str, channels: Sequence[Channel]) -> Iterator[str]:
    asked = codes.keys(mark).full
    for channel in channels:
        if channel.display == display and not asked.isdisjoint(codes.keys(channel.mark).full):
            yield channel.serves
