"""What checking each procedure comes to, kept from one run to the next in bundles.

A row for every hundredth procedure is read and written much faster than a row for each.
"""

from __future__ import annotations

import pickle
import zlib
from collections.abc import Container
from dataclasses import dataclass
from typing import Any

from kbgen.analysis.digest import Digest
from kbgen.cache import Cache, key_of
from kbgen.diagnostics import Diagnostic
from kbgen.library.folder import SourceFile

_BUNDLES = 64


@dataclass(frozen=True)
class Checked:
    """What checking one procedure comes to; ``pictures`` ties it to the pictures that it was checked with.

    The digest is kept packed, since it is not looked at where nothing has changed.
    """

    found: tuple[Diagnostic, ...]
    pictures: tuple[tuple[str, str], ...]
    packed: bytes

    @property
    def digest(self) -> Digest | None:
        """The digest of the procedure, or None where it could not be read."""
        digest: Digest | None = pickle.loads(self.packed)
        return digest


def packed(digest: Digest | None) -> bytes:
    """Pack a digest."""
    return pickle.dumps(digest, protocol=5)


class Results:
    """Results that hold for the bytes of a procedure and for what all of them depend on."""

    def __init__(self, cache: Cache, *depends_on: str) -> None:
        self._cache = cache
        self._depends_on = depends_on
        self._bundles: dict[int, dict[str, tuple[str, Checked]]] = {}
        self._changed: set[int] = set()

    def get(self, file: SourceFile) -> Checked | None:
        """What checking a file came to when it had the same bytes, or None."""
        digest, checked = self._bundle(_number(file)).get(file.path, ("", None))
        return checked if digest == file.digest else None

    def earlier(self, file: SourceFile) -> Checked | None:
        """What checking a file came to last, whatever its bytes were then, or None."""
        return self._bundle(_number(file)).get(file.path, ("", None))[1]

    def put(self, file: SourceFile, checked: Checked) -> None:
        """Keep what checking a file came to."""
        number = _number(file)
        self._bundle(number)[file.path] = (file.digest, checked)
        self._changed.add(number)

    def save(self, present: Container[str]) -> None:
        """Hand changed bundles to the cache, without files that are not there any more."""
        for number in sorted(self._changed):
            bundle = {path: one for path, one in self._bundles[number].items() if path in present}
            self._cache.put(self._key(number), bundle)

    def _bundle(self, number: int) -> dict[str, tuple[str, Checked]]:
        if number not in self._bundles:
            kept: Any = self._cache.get(self._key(number))
            self._bundles[number] = kept if isinstance(kept, dict) else {}
        return self._bundles[number]

    def _key(self, number: int) -> str:
        return key_of("checked", *self._depends_on, str(number))


def _number(file: SourceFile) -> int:
    return zlib.crc32(file.path.encode(errors="surrogateescape")) % _BUNDLES
