"""The addresses of the site: one place that knows how they are made."""

from __future__ import annotations

import re
from collections.abc import Callable

HOME = "index.html"
NARROW = "narrow.html"
CODES = "codes.html"
EQUIPMENT = "equipment.html"
TOOLS = "tools.html"
PARTS = "parts.html"
GLOSSARY = "glossary.html"
CAUTIONS = "cautions.html"
HELP = "help.html"
AUTHORS = "authors.html"
FORMULAS = "formulas.html"


def procedure(name: str, step: str = "") -> str:
    """Address of a procedure, or of a step in it, from the root."""
    return f"procedure/{name}.html" + (f"#{step_anchor(step)}" if step else "")


def step_anchor(step: str) -> str:
    """The anchor of a step; published, so it never changes for a step id."""
    return f"step-{step}"


def family(name: str) -> str:
    """Address of the page of an equipment family."""
    return f"family/{name}.html"


def narrow_family(name: str) -> str:
    """Address of the page on which a fault of a family is narrowed down."""
    return f"narrow/family-{name}.html"


def narrow_display(name: str) -> str:
    """Address of the page on which a fault is narrowed down that a display shows codes of."""
    return f"narrow/display-{name}.html"


def display(name: str) -> str:
    """Address of the page with the alarm codes of a display."""
    return f"display/{name}.html"


def search_in(filter_name: str, value: str) -> str:
    """Address of the search, narrowed to a family or a display by its id."""
    return f"{HOME}?{filter_name}={value}"


def code_anchor(code: str) -> str:
    """The anchor of an alarm code on the page of its display."""
    return f"code-{slug(code)}"


def rule(code: str) -> str:
    """Address of the page of a rule."""
    return f"rule/{code.lower()}.html"


def formula(name: str) -> str:
    """Address of a formula in the list of formulas."""
    return f"{FORMULAS}#formula-{name}"


def slug(words: str) -> str:
    """Words as an anchor; letters outside a-z are spelt by their number, so that different words stay different."""
    return re.sub(r"[^a-z0-9]", lambda found: "-" if found[0] == " " else f"_{ord(found[0]):x}", words.lower())


def resolver(root: str, here: str = "") -> Callable[[str], str | None]:
    """Return what turns the target of a link in prose into an address, seen from a page at ``root``."""

    def resolve(target: str) -> str | None:
        if target.startswith("#"):
            return f"#{step_anchor(target[1:])}" if here else None
        kind, _, name = target.partition(":")
        if kind == "procedure":
            ident, _, step = name.partition("#")
            return root + procedure(ident, step)
        if kind == "term":
            return f"{root}{GLOSSARY}#term-{slug(name)}"
        return f"{root}{TOOLS if kind == 'tool' else PARTS}#{kind}-{name}"

    return resolve
