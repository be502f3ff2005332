"""Pages at addresses that have moved; the anchor of a step is kept on the way."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from kbgen.model.shared import Shared
from kbgen.pages import addresses
from kbgen.pages.page import Page
from kbgen.pages.templates import render


@dataclass(frozen=True)
class Moved:
    """Pages that lead on, and for each page the old anchors that now mean another one: (old, new)."""

    pages: tuple[Page, ...]
    anchors: Mapping[str, tuple[tuple[str, str], ...]]


def redirect_pages(shared: Shared, titles: Mapping[str, str]) -> Moved:
    """Make what is needed so that no published address is lost."""
    pages: dict[str, dict[str, str]] = {}
    anchors: dict[str, list[tuple[str, str]]] = {}
    for redirect in shared.redirects:
        old, _, old_step = redirect.from_.partition("#")
        new, _, new_step = redirect.to.partition("#")
        if old in titles and old == new:
            pair = (addresses.step_anchor(old_step), addresses.step_anchor(new_step))
            anchors.setdefault(addresses.procedure(old), []).append(pair)
        elif old not in titles:
            pages.setdefault(old, {})[old_step] = str(redirect.to)
    made = tuple(_page(old, steps, titles) for old, steps in sorted(pages.items()))
    return Moved(made, {path: tuple(pairs) for path, pairs in anchors.items()})


def _page(old: str, steps: Mapping[str, str], titles: Mapping[str, str]) -> Page:
    whole = steps.get("") or next(iter(steps.values())).partition("#")[0]
    targets = {addresses.step_anchor(step): _href(to) for step, to in sorted(steps.items()) if step}
    new = whole.partition("#")[0]
    html = render("moved.html", href=_href(whole), title=titles.get(new, new), targets=targets)
    return Page(addresses.procedure(old), f"Moved: {titles.get(new, new)}", html)


def _href(to: str) -> str:
    procedure, _, step = to.partition("#")
    return f"../{addresses.procedure(procedure, step)}"
