"""Results kept from one run to the next, in a database of the user's own cache folder.

It never lies in the knowledge base: what is stored there could come from anyone, and stored objects are trusted.
"""

from __future__ import annotations

import contextlib
import hashlib
import pickle
import sqlite3
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

from platformdirs import user_cache_path

T = TypeVar("T")

_KEPT = 4  # runs after which a result that nobody asked for is dropped
_PATIENCE = 2.0  # seconds to wait for another run that writes
_UNUSED = 30 * 24 * 3600  # seconds after which a cache that nobody opened is removed


class Cache:
    """Maps keys to results. A result is a pure function of what its key was made from.

    Runs are counted by their purpose: results that only a build asks for do not age with every check.
    """

    def __init__(self, connection: sqlite3.Connection, purpose: str = "build") -> None:
        self._connection = connection
        self._purpose = purpose
        # The runs stand in a table of their own, so that noting them does not write the results anew.
        connection.execute("CREATE TABLE IF NOT EXISTS result (key TEXT PRIMARY KEY, value BLOB)")
        connection.execute("CREATE TABLE IF NOT EXISTS asked (key TEXT PRIMARY KEY, purpose TEXT, run INTEGER)")
        connection.execute("CREATE TABLE IF NOT EXISTS runs (purpose TEXT PRIMARY KEY, count INTEGER)")
        row = connection.execute("SELECT count FROM runs WHERE purpose = ?", (purpose,)).fetchone()
        self._run = (row[0] if row else 0) + 1
        self._asked: set[str] = set()
        self._fresh: dict[str, bytes] = {}

    def get(self, key: str) -> Any:
        """Return the result under a key, or None."""
        try:
            row = self._connection.execute("SELECT value FROM result WHERE key = ?", (key,)).fetchone()
        except sqlite3.DatabaseError:
            return None
        if row is None:
            return None
        self._asked.add(key)
        return pickle.loads(row[0])

    def put(self, key: str, value: Any) -> None:
        """Keep a result."""
        self._fresh[key] = pickle.dumps(value, protocol=5)
        self._asked.add(key)

    def made(self, key: str, make: Callable[[], T]) -> T:
        """Return the result under a key, made and kept if there is none yet."""
        known: T | None = self.get(key)
        if known is not None:
            return known
        value = make()
        self.put(key, value)
        return value

    def save(self) -> None:
        """Write what is new and drop what has not been asked for over several runs.

        Where that is not possible, since another run writes or the folder is not to be written to, nothing is kept.
        """
        with contextlib.suppress(sqlite3.Error):
            self._write()
        self._connection.close()

    def _write(self) -> None:
        with self._connection as database:
            database.execute("INSERT OR REPLACE INTO runs VALUES (?, ?)", (self._purpose, self._run))
            database.executemany("INSERT OR REPLACE INTO result VALUES (?, ?)", self._fresh.items())
            asked = ((key, self._purpose, self._run) for key in sorted(self._asked))
            database.executemany("INSERT OR REPLACE INTO asked VALUES (?, ?, ?)", asked)
            database.execute("DELETE FROM asked WHERE purpose = ? AND run < ?", (self._purpose, self._run - _KEPT))
            database.execute("DELETE FROM result WHERE key NOT IN (SELECT key FROM asked)")


def key_of(*parts: str) -> str:
    """The key of a result: a hash of everything that it depends on."""
    return hashlib.sha256("\0".join(parts).encode(errors="surrogateescape")).hexdigest()


def open_cache(name: str, purpose: str = "build") -> Cache:
    """Open the cache of a knowledge base for runs of a purpose.

    A damaged one is begun anew; where the folder cannot be used, nothing is kept.
    """
    try:
        path = user_cache_path("kbgen") / f"{key_of(name, _code_version())[:24]}.sqlite"
        path.parent.mkdir(parents=True, exist_ok=True)
        _drop_old(path.parent)
        return _opened(path, purpose)
    except (OSError, sqlite3.Error):
        return no_cache()


def no_cache() -> Cache:
    """A cache that is forgotten at the end."""
    return Cache(sqlite3.connect(":memory:"))


def _drop_old(folder: Path) -> None:
    """Remove caches of other versions of kbgen and of knowledge bases that are not worked on any more."""
    for path in folder.glob("*.sqlite"):
        if time.time() - path.stat().st_mtime > _UNUSED:
            path.unlink(missing_ok=True)


def _opened(path: Path, purpose: str) -> Cache:
    try:
        return Cache(sqlite3.connect(path, timeout=_PATIENCE), purpose)
    except sqlite3.OperationalError:
        raise
    except sqlite3.DatabaseError:
        path.unlink(missing_ok=True)
        return Cache(sqlite3.connect(path, timeout=_PATIENCE), purpose)


def _code_version() -> str:
    """Hash of kbgen's own code: results of another version are never used."""
    package = Path(__file__).parent
    digest = hashlib.sha256()
    for path in sorted(package.rglob("*.py")):
        digest.update(path.read_bytes())
    return digest.hexdigest()
