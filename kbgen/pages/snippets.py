"""Pieces of a step that look the same at many steps of many procedures: filled once, then kept."""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Any

from markupsafe import Markup

from kbgen.pages.hazards import HazardView
from kbgen.pages.line import Line
from kbgen.pages.step_views import PowerView
from kbgen.pages.templates import environment

_KEPT = 8192


@cache
def _macros() -> Any:
    return environment().get_template("macros.html").module


@lru_cache(_KEPT)
def power_strip(person: str, person_tone: str, power: tuple[PowerView, ...]) -> Markup:
    """Where the person is, and the state of each energy source."""
    return Markup(_macros().power_strip(person, person_tone, power, any(one.changed for one in power)))


@lru_cache(_KEPT)
def hazard_lines(hazards: tuple[HazardView, ...]) -> Markup:
    """The hazards that bite at a step."""
    return Markup("").join(Markup(_macros().hazard_line(one)) for one in hazards)


@lru_cache(_KEPT)
def work_lines(lines: tuple[Line, ...]) -> Markup:
    """Time, tools, limits and the like."""
    return Markup(_macros().work_lines(lines))
