"""The templates of the pages, with escaping always on."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined


def site_templates() -> Path:
    """The folder with templates, styles, scripts and fonts: beside the package in a checkout, else inside it."""
    package = Path(__file__).resolve().parent.parent
    inside = package / "site_templates"
    return inside if inside.is_dir() else package.parent / "site_templates"


@cache
def environment() -> Environment:
    """The Jinja environment; text is escaped unless it is marked as HTML already."""
    return Environment(
        loader=FileSystemLoader(site_templates() / "pages"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )


def render(template: str, **values: Any) -> str:
    """Fill a template of site_templates/pages."""
    return environment().get_template(template).render(**values)
