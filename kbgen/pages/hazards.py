"""What pages show of a hazard: the whole message once, and a line at each step where it bites."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from markupsafe import Markup

from kbgen.model.shared import Shared
from kbgen.model.tables import Hazard
from kbgen.pages.wording import SIGNAL
from kbgen.prose import plain
from kbgen.signs.message import SafetyMessage, html
from kbgen.signs.register import sign
from kbgen.signs.svg import use


@dataclass(frozen=True)
class HazardView:
    """A hazard as the page shows it."""

    word: str
    panel: str
    sign_code: str
    sign: Markup
    sign_title: str
    what: str
    consequence: str
    avoid: str
    message: Markup


def hazard_views(names: Iterable[str], shared: Shared) -> tuple[HazardView, ...]:
    """The hazards with these names, the gravest first."""
    known = [shared.hazards[name] for name in dict.fromkeys(names) if name in shared.hazards]
    known.sort(key=lambda hazard: -SIGNAL[hazard.signal].gravity)
    return tuple(_view(hazard) for hazard in known)


def hazard_line(view: HazardView) -> str:
    """A hazard in a few words, as results of a search show it."""
    return f"{view.word}: {view.what}"


def signs_of_hazards(shared: Shared) -> set[str]:
    """The signs of all hazards, as far as they are in the register."""
    return {str(hazard.sign) for hazard in shared.hazards.values() if sign(hazard.sign)}


@lru_cache(4096)
def _view(hazard: Hazard) -> HazardView:
    word = SIGNAL[hazard.signal]
    known = sign(hazard.sign)
    codes = (str(hazard.sign),) if known else ()
    avoid = plain(hazard.avoid)
    return HazardView(
        word=word.value,
        panel=word.panel_class,
        sign_code="".join(codes),
        sign=Markup(use(str(hazard.sign)) if known else ""),
        sign_title=known.title if known else "",
        what=str(hazard.what),
        consequence=str(hazard.consequence),
        avoid=avoid,
        message=Markup(html(SafetyMessage(word, str(hazard.what), str(hazard.consequence), avoid, codes))),
    )
