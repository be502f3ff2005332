"""The ledger of published addresses: one line each, kept in git beside the procedures."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from kbgen.place import Span

_HEAD = "# Addresses that were published. Written by kbgen build; keep it in git and do not edit it.\n"


@dataclass(frozen=True)
class Address:
    """The address of a procedure, or of a step in it."""

    procedure: str
    step: str
    at: Span

    def __str__(self) -> str:
        return f"{self.procedure}#{self.step}" if self.step else self.procedure


def parse(path: str, text: str) -> tuple[Address, ...]:
    """Read a ledger; blank lines and comments are passed over."""
    addresses = []
    for number, line in enumerate(text.splitlines()):
        written = line.strip()
        if written and not written.startswith("#"):
            procedure, _, step = written.partition("#")
            addresses.append(Address(procedure, step, Span(path, number, 0, number, len(line))))
    return tuple(addresses)


def text_of(addresses: Iterable[str]) -> str:
    """Write a ledger, sorted, each address once."""
    return _HEAD + "".join(f"{address}\n" for address in sorted(set(addresses)))
