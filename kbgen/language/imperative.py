"""Where a sentence in the imperative begins, and where a second action joins the first."""

from __future__ import annotations

import re
from collections.abc import Iterator

_FIRST_WORD = re.compile(r"[^\w{]*([A-Za-z]+(?:-[A-Za-z]+)*)")
# Each choice begins with a letter or a mark, so that the search leaps from one to the next.
_JOINT = re.compile(r"; |, |\. +|! +|\? +|then |and ")


def _set_of(words: str) -> frozenset[str]:
    return frozenset(words.split())


_ADVERBS = _set_of("again also always and but first just never next now once only please quite then there twice very")
_OPENERS = _set_of(
    "after as at because before behind below beside between by during for from given if in inside into on once outside "
    "over since through to together under unless until when whenever where wherever while with within without"
)
_OBJECTS = _set_of(
    "a all an another any both each either every everyone everything four half her his it its one other the their them "
    "these this those three two your"
)
_PARTICLES = _set_of("away back down off out up")
# Verbs that name parts as well: “Pump P1 runs” is no second action, “Pump the oil out” is.
_PARTS = _set_of(
    "belt bolt brake bridge brush button cap chain clamp clip coat cover crank display drain drill drive earth fan "
    "file filter flag float fuse gauge grip guard hand handle hook jack key latch lead lever light lock meter monitor "
    "oil pin plate plug pump rack relay ring rope screen screw seal seat sling spring stop strap switch tag tap trap "
    "valve vent water wedge wire"
)
_EVALUATION = re.compile(r"(?:take|use) the (?:average|difference|(?:high|larg|low|small)est|mean|reading|value)\b")
# What is done with eyes, ears or patience belongs to the action beside it, and so does keeping what it has reached.
_COMPANIONS = _set_of(
    "check compare confirm count ensure enter feel hold keep leave let listen look make note observe read see smell "
    "stay verify wait watch"
)


def first_word(text: str) -> str:
    """The first word of a text in small letters, or nothing where it begins with something else."""
    match = _FIRST_WORD.match(text)
    return match[1].lower() if match else ""


def imperative_start(text: str, verbs: frozenset[str]) -> int | None:
    """Where the verb of an instruction stands: at the start, behind adverbs, or behind a leading clause and a comma.

    None where the main clause begins with no known verb.
    """
    start = _verb_at(text, 0, verbs)
    if start is not None or not _has_leading_clause(text):
        return start
    behind = (_verb_at(text, match.end(), verbs) for match in re.finditer(r", |: ", text))
    return next((place for place in behind if place is not None), None)


def _verb_at(text: str, start: int, verbs: frozenset[str]) -> int | None:
    match = _FIRST_WORD.match(text, start)
    while match:
        word = match[1].lower()
        if word in verbs or not verbs.isdisjoint(word.split("-")) or word == "don":
            return match.start(1)
        if word not in _ADVERBS and not word.endswith("ly"):
            return None
        match = _FIRST_WORD.match(text, match.end())
    return None


def _has_leading_clause(text: str) -> bool:
    word = first_word(text)
    return word in _OPENERS or word.endswith(("ly", "ing"))


def second_action(text: str, verbs: frozenset[str]) -> tuple[int, int] | None:
    """Where an instruction goes on to another action, from the joint to the end of its verb; None where it has one.

    A joint is “then”, a semicolon, a comma or a new sentence with a verb behind it. “X and Y” is one handling, a chain
    of three is not. Looking, waiting and holding go with the action beside them.
    """
    start = imperative_start(text, verbs)
    if start is None:
        return None
    chained = 0
    for match, verb in _joined_verbs(text, start, verbs):
        joint = match[0].strip(" ")
        if joint == "and":
            chained += 1
        if joint != "and" or chained > 1:
            return match.start(), verb.end()
    return None


def _joined_verbs(text: str, start: int, verbs: frozenset[str]) -> Iterator[tuple[re.Match[str], re.Match[str]]]:
    for joint in _JOINT.finditer(text, start + 1):
        verb = _FIRST_WORD.match(text, joint.end())
        if not verb or (joint[0][0].isalpha() and text[joint.start() - 1] != " "):
            continue
        word = verb[1].lower()
        if word in verbs and word not in _COMPANIONS and _is_action(text, joint[0].strip(" "), verb):
            yield joint, verb


def _is_action(text: str, joint: str, verb: re.Match[str]) -> bool:
    """Tell a verb from a noun of the same form: “seal the lid” has an object, “seal and lid” has none."""
    rest = text[verb.end() :].lstrip()
    if _EVALUATION.match(f"{verb[1].lower()} {rest}"):
        return False
    if joint == ";":
        return True
    if joint == "then":
        return rest[:1] not in ("", ",", ".", ";", "!")
    following = re.match(r"[\w{]+", rest)
    word = following[0] if following else ""
    if joint in (",", "and"):
        return word in _OBJECTS or word.startswith("{")
    if not verb[1][:1].isupper():
        return False
    is_named = word[:1].isupper() or word[:1].isdigit() or word in _PARTICLES
    return word in _OBJECTS or word.startswith("{") or (is_named and verb[1].lower() not in _PARTS)
