"""Signs as small inline SVG in the style of ISO 3864.

Every drawing is hidden from assistive technology: the page prints the title of the sign in words.
Colours come from CSS variables with the same colour as a fallback, so a page without the style sheet still shows them.
"""

from collections.abc import Iterable

from kbgen.signs.register import Shape, Sign, sign

_YELLOW = "var(--kb-sign-yellow,#F9A800)"
_BLUE = "var(--kb-sign-blue,#005387)"
_RED = "var(--kb-sign-red,#9B2423)"
_GREEN = "var(--kb-sign-green,#237F52)"
_BLACK = "var(--kb-sign-black,#000)"
_WHITE = "var(--kb-sign-white,#fff)"
_EDGE = "var(--kb-sign-edge,transparent)"

_VIEW = 'viewBox="0 0 48 48"'
_HIDDEN = 'class="kb-sign" aria-hidden="true" focusable="false"'


def svg(code: str) -> str:
    """The sign of `code` as one self-contained element. Raises KeyError for a code outside the register."""
    return f"<svg {_HIDDEN} {_VIEW}>{_drawing(_registered(code))}</svg>"


def symbol_sheet(codes: Iterable[str]) -> str:
    """One invisible element that holds the drawings of `codes` once; put it on a page before its first `use`.

    Raises KeyError for a code outside the register.
    """
    symbols = "".join(
        f'<symbol id="{_anchor(code)}" {_VIEW}>{_drawing(_registered(code))}</symbol>' for code in sorted(set(codes))
    )
    return f'<svg class="kb-sign-sheet" width="0" height="0" aria-hidden="true" focusable="false">{symbols}</svg>'


def use(code: str) -> str:
    """A reference to the drawing of `code` in the symbol sheet of the same page.

    Raises KeyError for a code outside the register.
    """
    return f'<svg {_HIDDEN} {_VIEW}><use href="#{_anchor(_registered(code).code)}"/></svg>'


def _registered(code: str) -> Sign:
    found = sign(code)
    if found is None:
        raise KeyError(code)
    return found


def _anchor(code: str) -> str:
    return f"kb-sign-{code}"


def _drawing(entry: Sign) -> str:
    return _DRAWINGS[entry.shape](entry.symbol.path)


def _placed(path: str, colour: str, x: float, y: float, scale: float) -> str:
    return f'<path fill="{colour}" transform="translate({x:g} {y:g}) scale({scale:g})" d="{path}"/>'


def _triangle(path: str) -> str:
    outline = "M24 4.5 45.5 42h-43z"
    return (
        f'<path fill="{_EDGE}" stroke="{_EDGE}" stroke-width="4.8" stroke-linejoin="round" d="{outline}"/>'
        f'<path fill="{_YELLOW}" stroke="{_BLACK}" stroke-width="3.2" stroke-linejoin="round" d="{outline}"/>'
        + _placed(path, _BLACK, 13, 18.3, 0.9167)
    )


def _disc(path: str) -> str:
    return f'<circle cx="24" cy="24" r="22.5" fill="{_BLUE}" stroke="{_EDGE}"/>' + _placed(path, _WHITE, 9, 9, 1.25)


def _barred_ring(path: str) -> str:
    return (
        f'<circle cx="24" cy="24" r="22.5" fill="{_WHITE}" stroke="{_EDGE}"/>'
        + _placed(path, _BLACK, 9.6, 9.6, 1.2)
        + f'<g fill="none" stroke="{_RED}" stroke-width="4"><circle cx="24" cy="24" r="20.5"/>'
        + '<path d="M9.5 9.5l29 29"/></g>'
    )


def _square(path: str) -> str:
    return f'<rect x="2" y="2" width="44" height="44" fill="{_GREEN}" stroke="{_EDGE}"/>' + _placed(
        path, _WHITE, 7.5, 7.5, 1.375
    )


_DRAWINGS = {
    Shape.WARNING: _triangle,
    Shape.MANDATORY: _disc,
    Shape.PROHIBITION: _barred_ring,
    Shape.SAFE_CONDITION: _square,
}
