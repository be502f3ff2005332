"""Build beside the old site and put the new one in its place in one move, so that a failed build loses nothing."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path


class Workspace:
    """A new folder beside the site's, which takes its place only when it is complete."""

    def __init__(self, site: Path) -> None:
        self.site = site
        site.parent.mkdir(parents=True, exist_ok=True)
        self.folder = Path(tempfile.mkdtemp(prefix=f".{site.name}-", dir=site.parent))
        self.folder.chmod(0o755)

    def take_over(self) -> None:
        """Put the new folder in the place of the old one; at every moment one of the two is there in full."""
        if self.site.exists():
            old = Path(tempfile.mkdtemp(prefix=f".{self.site.name}-old-", dir=self.site.parent))
            self.site.rename(old / self.site.name)
            self.folder.rename(self.site)
            shutil.rmtree(old)
        else:
            self.folder.rename(self.site)

    def drop(self) -> None:
        """Remove what was built so far."""
        shutil.rmtree(self.folder, ignore_errors=True)
