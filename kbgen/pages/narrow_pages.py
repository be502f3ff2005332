"""The pages on which a fault is narrowed down by what is seen: one to choose the equipment, one for each scope."""

from __future__ import annotations

from kbgen.model.shared import Shared
from kbgen.narrowing import assets
from kbgen.narrowing.assumed import ASSUMPTIONS
from kbgen.pages import addresses, wording
from kbgen.pages.narrow_scopes import Scope, Scopes
from kbgen.pages.page import Page
from kbgen.pages.templates import render

TITLE = "Narrow down by what you see"


def narrow_pages(shared: Shared, scopes: Scopes) -> tuple[Page, ...]:
    """All pages for narrowing down."""
    return (_choice(shared, scopes), *(_scope(shared, one) for one in scopes.all))


def _choice(shared: Shared, scopes: Scopes) -> Page:
    html = render(
        "narrow_choice.html",
        title=TITLE,
        families=[one for one in shared.families.values() if one.id in scopes.of_family],
        displays=[one for one in shared.displays.values() if one.id in scopes.of_display],
        scopes=scopes,
        counts={one.page: len(one.known.faults) for one in scopes.all},
        addresses=addresses,
        wording=wording,
    )
    return Page(addresses.NARROW, TITLE, html)


def _scope(shared: Shared, scope: Scope) -> Page:
    root = "../" * scope.page.count("/")
    html = render(
        "narrow.html",
        root=root,
        title=scope.title,
        scope=scope,
        call=_call(shared),
        assumptions=ASSUMPTIONS,
        scripts=[f"{root}kbgen/{path}" for path in assets.SCRIPTS],
        data=f"{root}kbgen/{scope.data}",
        addresses=addresses,
    )
    return Page(scope.page, f"Narrow down: {scope.title}", html)


def _call(shared: Shared) -> str:
    contact = shared.contacts.get(shared.site.call) if shared.site else None
    return f"{contact.name}: {contact.reach} ({contact.hours})" if contact else ""
