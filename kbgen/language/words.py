"""Words and sentences of a text, counted as a reader counts them."""

from __future__ import annotations

import re
from collections.abc import Iterator

_UNIT = (
    r"(?:%|‰|°C|°F|°|K|[kmMµu]?V|[kmµ]?A|[kM]?W|[kM]?VA|[kmM]?Ω|k?N(?:·?m)?|[cmkµ]?m(?:[²³23])?(?:/(?:s|min|h))?"
    r"|m?l(?:/(?:min|h))?|m?bar|[kM]?Pa|[kM]?Hz|rpm|m?s|min|h|d|k?g|t|[kM]?J|dB(?:\(A\))?)(?: (?:AC|DC))?"
)
_WORD = re.compile(rf"\{{[^{{}}]*\}}|[A-Z]{{1,5}} \d[\w./-]*|[±+−-]?\d[\d.,:]*(?:\s?{_UNIT})?(?!\w)|\w\S*")
# Every word holds at least one of these, and no two words share one.
_PIECE = re.compile(r"\w+|\{")
_SENTENCE_END = re.compile(r"(?<=[.!?])\s+(?=[^a-z\s])")


def word_count(text: str) -> int:
    """Count words; a number with its unit, a code, a hyphenated word and a placeholder are one each."""
    return sum(1 for _ in _WORD.finditer(text))


def sentences(text: str) -> Iterator[str]:
    """Split a text after full stops, exclamation and question marks that a new sentence follows."""
    yield from _SENTENCE_END.split(text)


def may_exceed(text: str, limit: int) -> bool:
    """Tell in a moment whether a text can have more words than the limit."""
    return len(_PIECE.findall(text)) > limit
