"""The configuration of MkDocs that a knowledge base belongs to, found without MkDocs."""

from __future__ import annotations

from pathlib import Path

from kbgen.commands.places import shown
from kbgen.library.folder import Folder
from kbgen.settings import Settings, read_settings

NAMES = ("mkdocs.yml", "mkdocs.yaml")


def settings_of(folder: Folder) -> Settings:
    """The settings of a knowledge base.

    They stand in the nearest mkdocs.yml upwards that has kbgen among its plugins; where there is none, in that of the
    current folder.
    """
    root = folder.root.resolve()
    for place in (root, *root.parents, Path.cwd()):
        for name in NAMES:
            if (place / name).is_file():
                settings = read_settings(place / name, shown)
                if settings is not None:
                    return settings
    return Settings()
