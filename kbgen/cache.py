"""Results kept from one run to the next, in a database of the user's own cache folder.

It never lies in the knowledge base: what is stored there could come from anyone, and stored objects are trusted.
"""

from __future__ import annotations

import hashlib
import pickle
import sqlite3
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

from platformdirs import user_cache_path

T = TypeVar("T")

_KEPT = 4  # runs after which a result that nobody asked for is dropped


class Cache:
    """Maps keys to results. A result is a pure function of what its key was made from."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self._connection = connection
        # The runs stand in a table of their own, so that noting them does not write the results anew.
        connection.execute("CREATE TABLE IF NOT EXISTS result (key TEXT PRIMARY KEY, value BLOB)")
        connection.execute("CREATE TABLE IF NOT EXISTS asked (key TEXT PRIMARY KEY, run INTEGER)")
        self._run = connection.execute("PRAGMA user_version").fetchone()[0] + 1
        self._asked: set[str] = set()
        self._fresh: dict[str, bytes] = {}

    def get(self, key: str) -> Any:
        """Return the result under a key, or None."""
        row = self._connection.execute("SELECT value FROM result WHERE key = ?", (key,)).fetchone()
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
        """Write what is new and drop what has not been asked for over several runs."""
        with self._connection as database:
            database.execute(f"PRAGMA user_version = {self._run}")
            database.executemany("INSERT OR REPLACE INTO result VALUES (?, ?)", self._fresh.items())
            asked = ((key, self._run) for key in sorted(self._asked))
            database.executemany("INSERT OR REPLACE INTO asked VALUES (?, ?)", asked)
            database.execute("DELETE FROM asked WHERE run < ?", (self._run - _KEPT,))
            database.execute("DELETE FROM result WHERE key NOT IN (SELECT key FROM asked)")
        self._connection.close()


def key_of(*parts: str) -> str:
    """The key of a result: a hash of everything that it depends on."""
    return hashlib.sha256("\0".join(parts).encode(errors="surrogateescape")).hexdigest()


def open_cache(name: str) -> Cache:
    """Open the cache of a knowledge base; a damaged one is begun anew, an unusable folder means none is kept."""
    try:
        path = user_cache_path("kbgen") / f"{key_of(name, _code_version())[:24]}.sqlite"
        path.parent.mkdir(parents=True, exist_ok=True)
        return _opened(path)
    except (OSError, sqlite3.Error):
        return no_cache()


def no_cache() -> Cache:
    """A cache that is forgotten at the end."""
    return Cache(sqlite3.connect(":memory:"))


def _opened(path: Path) -> Cache:
    try:
        return Cache(sqlite3.connect(path))
    except sqlite3.DatabaseError:
        path.unlink(missing_ok=True)
        return Cache(sqlite3.connect(path))


def _code_version() -> str:
    """Hash of kbgen's own code: results of another version are never used."""
    package = Path(__file__).parent
    digest = hashlib.sha256()
    for path in sorted(package.rglob("*.py")):
        digest.update(path.read_bytes())
    return digest.hexdigest()
