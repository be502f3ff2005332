"""Words one slip away from a known word."""

from collections.abc import Iterable

SHORTEST = 4
"""Shorter words are not corrected: too many other words are one slip away."""


def one_slip_apart(a: str, b: str) -> bool:
    """Tell whether one letter added, lost, exchanged or swapped with its neighbour (or none) turns `a` into `b`."""
    same = 0
    while same < min(len(a), len(b)) and a[same] == b[same]:
        same += 1
    rest_a, rest_b = a[same:], b[same:]
    return (
        rest_a[1:] == rest_b[1:]
        or rest_a[1:] == rest_b
        or rest_a == rest_b[1:]
        or (rest_a[1::-1] == rest_b[:2] and rest_a[2:] == rest_b[2:])
    )


def corrections(word: str, known: Iterable[str]) -> tuple[str, ...]:
    """Return the known words that `word` may be a slip for, in the order given; none if it is short or has digits."""
    if len(word) < SHORTEST or any(c in "0123456789" for c in word):
        return ()
    return tuple(k for k in known if abs(len(k) - len(word)) <= 1 and one_slip_apart(word, k))
