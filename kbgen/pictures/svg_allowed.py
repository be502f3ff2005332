"""What a drawing may hold: elements, attributes, style properties and the values they may take."""

import re

SVG = "http://www.w3.org/2000/svg"
XLINK = "http://www.w3.org/1999/xlink"
XHTML = "http://www.w3.org/1999/xhtml"
MATHML = "http://www.w3.org/1998/Math/MathML"
EVENTS = "http://www.w3.org/2001/xml-events"

SHAPES = frozenset({"circle", "ellipse", "line", "path", "polygon", "polyline", "rect", "text", "use"})
ELEMENTS = SHAPES | frozenset(
    {
        "svg",
        "g",
        "defs",
        "symbol",
        "marker",
        "clipPath",
        "pattern",
        "linearGradient",
        "radialGradient",
        "stop",
        "tspan",
        "title",
        "desc",
    }
)
TEXT_RUNS = frozenset({"text", "tspan"})
CAPTIONS = frozenset({"title", "desc"})

PROPERTIES = frozenset(
    {
        "alignment-baseline",
        "baseline-shift",
        "clip-path",
        "clip-rule",
        "color",
        "color-interpolation",
        "direction",
        "display",
        "dominant-baseline",
        "fill",
        "fill-opacity",
        "fill-rule",
        "font-family",
        "font-size",
        "font-stretch",
        "font-style",
        "font-variant",
        "font-weight",
        "letter-spacing",
        "marker-end",
        "marker-mid",
        "marker-start",
        "opacity",
        "overflow",
        "paint-order",
        "shape-rendering",
        "stop-color",
        "stop-opacity",
        "stroke",
        "stroke-dasharray",
        "stroke-dashoffset",
        "stroke-linecap",
        "stroke-linejoin",
        "stroke-miterlimit",
        "stroke-opacity",
        "stroke-width",
        "text-anchor",
        "text-decoration",
        "text-rendering",
        "unicode-bidi",
        "vector-effect",
        "visibility",
        "word-spacing",
        "writing-mode",
    }
)
GEOMETRY = frozenset(
    {
        "clipPathUnits",
        "cx",
        "cy",
        "d",
        "dx",
        "dy",
        "fr",
        "fx",
        "fy",
        "gradientTransform",
        "gradientUnits",
        "height",
        "lengthAdjust",
        "markerHeight",
        "markerUnits",
        "markerWidth",
        "offset",
        "orient",
        "pathLength",
        "patternContentUnits",
        "patternTransform",
        "patternUnits",
        "points",
        "preserveAspectRatio",
        "r",
        "refX",
        "refY",
        "rotate",
        "rx",
        "ry",
        "spreadMethod",
        "textLength",
        "transform",
        "viewBox",
        "width",
        "x",
        "x1",
        "x2",
        "y",
        "y1",
        "y2",
    }
)
ATTRIBUTES = PROPERTIES | GEOMETRY
# On the outermost element these would let a drawing paint outside its own box, over the page around it.
NOT_ON_ROOT = frozenset({"overflow", "transform", "x", "y"})
# Bookkeeping of drawing programs: it draws nothing, so that its loss is not worth a word to the author.
BOOKKEEPING_ELEMENTS = frozenset({"metadata"})
BOOKKEEPING_ATTRIBUTES = frozenset({"baseProfile", "class", "enable-background", "version"})

_FUNCTIONS = frozenset({"rgb", "rgba", "hsl", "hsla", "matrix", "translate", "scale", "rotate", "skewx", "skewy"})
_LOCAL_URL = re.compile(r"""url\(\s*(['"]?)#(?P<id>[^\s'"()\\]+)\1\s*\)""", re.IGNORECASE)
_LOCAL_HREF = re.compile(r"#(?P<id>[^\s'\"()\\]+)")
_HARMLESS = re.compile(r"[\w\s.,#%()+'\"*-]*")
_SEPARATORS = str.maketrans(",)", "  ")


def is_safe(value: str) -> bool:
    """Tell whether a value holds only plain characters, known functions and references into the same drawing."""
    rest = _LOCAL_URL.sub(" ", value)
    return bool(_HARMLESS.fullmatch(rest)) and all(_ends_in_function(part) for part in rest.split("(")[:-1])


def _ends_in_function(text: str) -> bool:
    words = text.lower().translate(_SEPARATORS).split()
    return bool(words) and words[-1] in _FUNCTIONS


def references(name: str, value: str) -> tuple[str, ...]:
    """Return the ids that an attribute of a cleaned element points to."""
    pattern = _LOCAL_HREF if name == "href" else _LOCAL_URL
    return tuple(match["id"] for match in pattern.finditer(value))


def is_local_href(value: str) -> bool:
    """Tell whether a link is a bare fragment, which cannot leave the drawing."""
    return _LOCAL_HREF.fullmatch(value) is not None


def redirected(name: str, value: str, names: dict[str, str]) -> str:
    """Return the value with every reference replaced by its new id; `names` holds each id that is referred to."""
    if name == "href":
        return f"#{names[value[1:]]}"
    return _LOCAL_URL.sub(lambda match: f"url(#{names[match['id']]})", value)
