"""The verbs that instructions of the trade begin with, in their base form; a list of our own in ``verbs.txt``."""

from __future__ import annotations

from pathlib import Path

VERBS = frozenset(Path(__file__).with_name("verbs.txt").read_text(encoding="utf-8").split())


def base_form(word: str, verbs: frozenset[str]) -> str | None:
    """The base form of an inflected verb (opens, opened, opening), or None where no known verb fits."""
    for ending in ("s", "es", "ed", "d", "ing"):
        stem = word.removesuffix(ending)
        if stem == word:
            continue
        for base in (stem, f"{stem}e", stem[:-1] if stem[-2:-1] == stem[-1:] else stem):
            if base in verbs:
                return base
    return None
