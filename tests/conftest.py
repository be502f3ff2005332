"""What all tests share: results of earlier runs never enter, and nothing is left in the user's cache folder."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from hypothesis import settings

# Nothing is timed in the tests, and a run on a busy machine tries the same examples as any other.
settings.register_profile("kbgen", deadline=None, derandomize=True)
settings.load_profile("kbgen")


@pytest.fixture(scope="session", autouse=True)
def own_cache_folder(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Give kbgen a cache folder of its own for the run."""
    patch = pytest.MonkeyPatch()
    patch.setenv("XDG_CACHE_HOME", str(tmp_path_factory.mktemp("cache")))
    patch.setenv("NO_MKDOCS_2_WARNING", "1")
    yield
    patch.undo()
