import re
import xml.etree.ElementTree as ET
from html.parser import HTMLParser

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kbgen.pictures import svg_allowed as allowed
from kbgen.pictures.drawing import CleanDrawing, clean
from kbgen.pictures.unreadable import UnreadablePicture

SVG = 'xmlns="http://www.w3.org/2000/svg"'
XLINK = 'xmlns:xlink="http://www.w3.org/1999/xlink"'


def drawing(inside: str, attributes: str = 'viewBox="0 0 100 50"') -> CleanDrawing:
    return clean(f"<svg {SVG} {XLINK} {attributes}>{inside}<rect width='1' height='1'/></svg>".encode())


class Inventory(HTMLParser):
    """What a browser's HTML parser would find, if the drawing stood inside a page."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.elements: list[tuple[str, dict[str, str]]] = []
        self.others: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.elements.append((tag, {name: value or "" for name, value in attrs}))

    def handle_comment(self, data: str) -> None:
        self.others.append(data)

    def handle_decl(self, decl: str) -> None:
        self.others.append(decl)

    def handle_pi(self, data: str) -> None:
        self.others.append(data)

    def unknown_decl(self, data: str) -> None:
        self.others.append(data)


ELEMENTS = {name.lower() for name in allowed.ELEMENTS}
ATTRIBUTES = {name.lower() for name in allowed.ATTRIBUTES} | {"id", "href", "xmlns"}


def assert_safe(svg: str) -> None:
    inventory = Inventory()
    inventory.feed(svg)
    inventory.close()
    assert inventory.others == []
    for tag, attributes in inventory.elements:
        assert tag in ELEMENTS
        assert attributes.keys() <= ATTRIBUTES
        for name, value in attributes.items():
            assert_safe_value(name, value)


def assert_safe_value(name: str, value: str) -> None:
    if name == "xmlns":
        assert value == "http://www.w3.org/2000/svg"
    elif name == "href":
        assert re.fullmatch(r"#drawing-[0-9a-f]{10}-\d+", value)
    elif name == "id":
        assert re.fullmatch(r"drawing-[0-9a-f]{10}-\d+", value)
    else:
        rest = re.sub(r"url\(#drawing-[0-9a-f]{10}-\d+\)", "", value)
        assert not re.search(r"url|:|/|\\|@|&|<|script", rest, re.IGNORECASE)


HOSTILE = [
    "<script>alert(1)</script>",
    "<script xlink:href='https://evil.example/x.js'/>",
    "<script xmlns='http://www.w3.org/1999/xhtml'>alert(1)</script>",
    "<h:script xmlns:h='http://www.w3.org/1999/xhtml'>alert(1)</h:script>",
    "<g onload='alert(1)'/>",
    "<rect OnClick='alert(1)' width='1' height='1'/>",
    "<a xlink:href='javascript:alert(1)'><rect width='9' height='9'/></a>",
    "<a href='https://evil.example'><text>Press</text></a>",
    "<foreignObject><body xmlns='http://www.w3.org/1999/xhtml'><iframe src='x'/></body></foreignObject>",
    "<image href='https://evil.example/track.png'/>",
    "<image xlink:href='data:image/svg+xml;base64,PHN2Zz48L3N2Zz4='/>",
    "<use href='https://evil.example/x.svg#a'/>",
    "<use xlink:href='data:image/svg+xml,x#a'/>",
    "<use href='other.svg#a'/>",
    "<style>@import url(https://evil.example/x.css);</style>",
    "<style>* { background: url(javascript:alert(1)) }</style>",
    "<style><![CDATA[</style><img src=x onerror=alert(1)>]]></style>",
    "<rect style='fill:url(https://evil.example/x)' width='1' height='1'/>",
    "<rect style='fill:u\\72l(https://evil.example/x)' width='1' height='1'/>",
    "<rect style='fill:red;background-image:url(//evil.example)' width='1' height='1'/>",
    "<rect style='position:fixed;inset:0' width='1' height='1'/>",
    "<rect style='fill:expression(alert(1))' width='1' height='1'/>",
    "<rect fill='url(https://evil.example/x#a)' width='1' height='1'/>",
    "<rect fill='url(&quot;javascript:alert(1)&quot;)' width='1' height='1'/>",
    "<rect fill='\\75rl(//evil.example)' width='1' height='1'/>",
    "<rect fill='image-set(&quot;https://evil.example&quot; 1x)' width='1' height='1'/>",
    "<rect filter='url(https://evil.example/x#f)' width='1' height='1'/>",
    "<rect cursor='url(https://evil.example/x.cur)' width='1' height='1'/>",
    "<filter id='f'><feImage href='https://evil.example/x.png'/></filter>",
    "<a id='x'><animate attributeName='href' values='javascript:alert(1)'/><text>go</text></a>",
    "<set attributeName='xlink:href' to='javascript:alert(1)'/>",
    "<animate onbegin='alert(1)' attributeName='x' dur='1s'/>",
    "<animateTransform onend='alert(1)' attributeName='transform'/>",
    "<handler xmlns='http://www.w3.org/2001/xml-events' type='load'>alert(1)</handler>",
    "<rect xmlns:ev='http://www.w3.org/2001/xml-events' ev:event='load' width='1' height='1'/>",
    "<title>&lt;/title&gt;&lt;script&gt;alert(1)&lt;/script&gt;</title>",
    "<desc><img xmlns='http://www.w3.org/1999/xhtml' src='x' onerror='alert(1)'/></desc>",
    "<text>&lt;img src=x onerror=alert(1)&gt;</text>",
    "<text><tspan>a</tspan>&lt;script&gt;</text>",
    "<math xmlns='http://www.w3.org/1998/Math/MathML' href='javascript:alert(1)'/>",
    "<iframe src='javascript:alert(1)'/>",
    "<switch><foreignObject/><g onload='alert(1)'/></switch>",
    "<?xml-stylesheet href='https://evil.example/x.css'?>",
    "<!--><img src=x onerror=alert(1)>-->",
    "<rect xml:base='javascript:' width='1' height='1'/>",
    "<g id='kbgen'/><use href='#kbgen'/>",
    "<g id='\"&gt;&lt;script&gt;'/><use href='#\"&gt;&lt;script&gt;'/>",
    "<rect width='1\" onload=\"alert(1)' height='1'/>",
    "<embed src='x'/><object data='x'/><video src='x'/><audio src='x'/>",
    "<listener event='load' handler='#a'/>",
    "<textPath href='https://evil.example/#p'>x</textPath>",
    "<linearGradient id='g' href='https://evil.example/#g'/>",
    "<mask id='m'/><rect mask='url(https://evil.example/#m)' width='1' height='1'/>",
    "<discard/><mpath href='javascript:alert(1)'/>",
]


@pytest.mark.parametrize("inside", HOSTILE)
def test_hostile_content_goes(inside: str) -> None:
    result = drawing(inside)
    assert_safe(result.svg)
    assert "evil" not in result.svg
    assert "javascript" not in result.svg
    again = clean(result.svg.encode())
    assert again.svg == result.svg
    assert again.problems == ()


@pytest.mark.parametrize(
    "inside", [vector for vector in HOSTILE if re.match("<(script|g onload|image|style|use)", vector)]
)
def test_what_was_taken_out_is_said(inside: str) -> None:
    assert drawing(inside).problems


def test_problems_are_counted_in_plain_words() -> None:
    result = drawing("<script/><script/><g onclick='x'/><use href='x.svg#a'/>")
    assert result.problems == (
        "a script (2 times)",
        "the event handler onclick",
        "a link to something outside the drawing",
    )


def test_a_flood_of_problems_is_cut_short() -> None:
    problems = drawing("<g " + " ".join(f"a{n}=''" for n in range(100)) + "/>").problems
    assert problems[:2] == ("the attribute a0", "the attribute a1")
    assert problems[-1] == "70 more kinds of things"


@pytest.mark.parametrize("value", ["a" * 450_000, "1" * 450_000 + "x", "url(" * 110_000, "url(#" + " " * 450_000])
def test_a_long_value_takes_no_longer_than_its_length(value: str) -> None:
    drawing(
        f"<path fill='{value}' style='fill:{value}' transform='{value}'/>", f"viewBox='{value}' width='9' height='9'"
    )


@pytest.mark.parametrize(
    "value", ["translate(1,2) rotate( 45 )", "matrix(1 0 0 1 0 0)", "SCALE(2)", "rgb(1, 2, 3)", "hsla(1,2%,3%,.5)"]
)
def test_known_functions_are_allowed(value: str) -> None:
    assert allowed.is_safe(value)


@pytest.mark.parametrize(
    "value", ["var(--x)", "attr(x)", "(1)", "x rgbx(1)", "rgb(calc(1))", "url()", "url(#a", "env(x)"]
)
def test_other_functions_are_not(value: str) -> None:
    assert not allowed.is_safe(value)


@pytest.mark.parametrize(
    "data",
    [
        b'<!DOCTYPE svg><svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path d="M0 0"/></svg>',
        b'<!DOCTYPE svg [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]><svg><text>&b;</text></svg>',
        b'<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/passwd">]><svg><text>&x;</text></svg>',
        b'<!DOCTYPE svg [<!ENTITY % x SYSTEM "https://evil.example/x.dtd"> %x;]><svg/>',
        '<!DOCTYPE svg [<!ENTITY a "b">]><svg><text>&a;</text></svg>'.encode("utf-16"),
    ],
)
def test_document_types_and_entities_are_refused(data: bytes) -> None:
    with pytest.raises(UnreadablePicture, match="document type"):
        clean(data)


@pytest.mark.parametrize(
    ("data", "reason"),
    [
        (b"", "not well-formed"),
        (b"\x89PNG\r\n", "not well-formed"),
        (b"<svg>", "not well-formed"),
        (b'<?xml version="1.0" encoding="no-such"?><svg/>', "not well-formed"),
        (b"<html><svg/></html>", "outermost"),
        (b"<svg xmlns='urn:x'/>", "outermost"),
        (b"<svg><path d='M0 0'/></svg>", "viewBox"),
        (b"<svg width='100%' height='100%'><path d='M0 0'/></svg>", "viewBox"),
        (b"<svg viewBox='0 0 1e9 5'><path d='M0 0'/></svg>", "between"),
        (b"<svg viewBox='0 0 9 9'><script/></svg>", "no shape"),
        (b"<svg>" + b"<g>" * 100 + b"</g>" * 100 + b"</svg>", "deep"),
        (b"<svg>" + b"<g/>" * 60_000 + b"</svg>", "elements"),
        (b" " * 2_000_001, "larger"),
    ],
)
def test_unusable_files_are_refused_with_a_reason(data: bytes, reason: str) -> None:
    with pytest.raises(UnreadablePicture, match=reason):
        clean(data)


def test_copies_of_copies_are_refused() -> None:
    levels = "".join(f"<g id='l{n}'>" + f"<use href='#l{n - 1}'/>" * 10 + "</g>" for n in range(1, 12))
    with pytest.raises(UnreadablePicture, match="too many times"):
        drawing(f"<g id='l0'><path d='M0 0'/></g>{levels}")


def test_patterns_inside_patterns_count_as_copies() -> None:
    pattern = "<pattern id='p{0}'>" + "<rect fill='url(#p{1})' width='1' height='1'/>" * 10 + "</pattern>"
    with pytest.raises(UnreadablePicture, match="too many times"):
        drawing("<pattern id='p0'/>" + "".join(pattern.format(n, n - 1) for n in range(1, 12)))


@pytest.mark.parametrize(
    "inside",
    [
        "<g id='a'><use href='#a'/></g>",
        "<g id='a'><use href='#b'/></g><g id='b'><use xlink:href='#a'/></g>",
        "<pattern id='a'><rect fill='url(#a)' width='1' height='1'/></pattern>",
    ],
)
def test_loops_of_references_are_refused(inside: str) -> None:
    with pytest.raises(UnreadablePicture, match="refers to itself"):
        drawing(inside)


def test_a_long_chain_of_references_is_refused_and_not_followed_to_a_crash() -> None:
    chain = "".join(f"<g id='c{n}'><use href='#c{n + 1}'/></g>" for n in range(5_000))
    with pytest.raises(UnreadablePicture, match="more than 150 parts"):
        drawing(f"{chain}<g id='c5000'/>")


def test_local_references_survive_under_new_ids() -> None:
    result = drawing(
        "<defs><linearGradient id='shade'><stop offset='0' stop-color='red'/></linearGradient></defs>"
        "<path d='M0 0H9' fill='url(\"#shade\") red' id='unused'/><use xlink:href='#unused'/>"
    )
    assert result.problems == ()
    assert "shade" not in result.svg
    names = re.findall(r'id="(drawing-[^"]+)"', result.svg)
    assert len(names) == 2
    assert f'fill="url(#{names[0]}) red"' in result.svg
    assert f'href="#{names[1]}"' in result.svg


def test_ids_of_two_different_drawings_never_meet() -> None:
    one, two = (drawing(f"<path id='a' d='M{x} 0'/><use href='#a'/>").svg for x in (1, 2))
    assert not set(re.findall(r'id="([^"]+)"', one)) & set(re.findall(r'id="([^"]+)"', two))


def test_a_reference_to_nothing_is_taken_out_and_said() -> None:
    result = drawing("<rect fill='url(#none)' width='1' height='1'/>")
    assert "url" not in result.svg
    assert result.problems == ("a reference (fill) to a part that the drawing does not have",)


def test_a_style_becomes_attributes_and_wins_over_them() -> None:
    result = drawing("<rect fill='red' style='FILL: blue ; stroke-width:2px;-x-note:1' width='1' height='1'/>")
    assert '<rect fill="blue" height="1" stroke-width="2px" width="1"/>' in result.svg
    assert result.problems == ()


def test_text_keeps_its_words_when_a_part_of_it_goes() -> None:
    result = drawing(
        "<text>Oil <tspan fill='red'>hot</tspan> and <script>x</script>under <a href='x'>pressure</a>.</text>"
    )
    text = ET.fromstring(result.svg)[0]
    assert "".join(text.itertext()) == "Oil hot and under pressure."


@pytest.mark.parametrize(
    ("attributes", "size", "view"),
    [
        ("viewBox='0 0 100 50'", (100, 50), "0 0 100 50"),
        ("viewBox='-5,-5.5 10 20' width='500'", (10, 20), "-5 -5.5 10 20"),
        ("width='200' height='100px'", (200, 100), "0 0 200 100"),
        ("width='1in' height='25.4mm'", (96, 96), "0 0 96 96"),
        ("viewBox='0 0 0 5' width='3pc' height='72pt'", (48, 96), "0 0 48 96"),
    ],
)
def test_size(attributes: str, size: tuple[float, float], view: str) -> None:
    result = drawing("", attributes)
    root = ET.fromstring(result.svg)
    assert (result.width, result.height) == size
    assert root.get("viewBox") == view
    assert (float(root.get("width", "")), float(root.get("height", ""))) == size


def test_the_bookkeeping_of_drawing_programs_goes_without_a_word() -> None:
    result = drawing(
        "<metadata><r:RDF xmlns:r='urn:rdf'/></metadata><e:view xmlns:e='urn:editor' e:zoom='1'/>"
        "<g xmlns:e='urn:editor' e:label='Layer 1' class='a' data-x='1'/>"
    )
    assert result.problems == ()
    assert "urn:" not in result.svg


def test_the_outermost_element_cannot_paint_over_the_page() -> None:
    result = drawing("", "viewBox='0 0 9 9' overflow='visible' style='overflow:visible' transform='scale(99)' x='-9'")
    assert not {"overflow", "transform", "x", "style"} & set(ET.fromstring(result.svg).keys())


LETTERS = st.characters(codec="utf-8", exclude_categories=("Cc", "Cs"), include_characters="\r\n\t<&>\"'")
NAMES = st.sampled_from(
    sorted(allowed.ELEMENTS)
    + ["script", "style", "a", "switch", "foreignObject", "image", "animate", "set", "metadata"]
)
VALUES = st.one_of(
    st.sampled_from(
        ["#a", "#b", "url(#a)", "url('#b') red", "javascript:x", "url(//x)", "fill:url(#a);stroke:red", "a", "b"]
    ),
    st.text(LETTERS, max_size=12),
)
KEYS = st.sampled_from([*sorted(allowed.ATTRIBUTES), "id", "id", "href", "href", "style", "onload", "class", "src"])
TEXTS = st.text(LETTERS, max_size=8)


def tree(children: st.SearchStrategy[ET.Element]) -> st.SearchStrategy[ET.Element]:
    return st.builds(
        element, NAMES, st.dictionaries(KEYS, VALUES, max_size=4), TEXTS, TEXTS, st.lists(children, max_size=4)
    )


def element(name: str, attributes: dict[str, str], text: str, tail: str, children: list[ET.Element]) -> ET.Element:
    made = ET.Element(name, attributes)
    made.text, made.tail = text, tail
    made.extend(children)
    return made


TREES = st.recursive(st.builds(ET.Element, NAMES), tree, max_leaves=12)


@settings(max_examples=300, deadline=None)
@given(st.lists(TREES, max_size=4))
def test_whatever_is_drawn_the_result_is_safe_and_cleaning_it_again_changes_nothing(parts: list[ET.Element]) -> None:
    root = ET.Element("svg", {"viewBox": "0 0 10 10"})
    root.extend([*parts, ET.Element("path")])
    try:
        first = clean(ET.tostring(root, encoding="utf-8"))
    except UnreadablePicture:
        return
    assert_safe(first.svg)
    assert clean(first.svg.encode()) == CleanDrawing(first.svg, first.width, first.height, ())


@settings(max_examples=200, deadline=None)
@given(
    st.binary(max_size=200)
    | st.text(max_size=200).map(lambda text: f"<svg viewBox='0 0 9 9'>{text}<g/></svg>".encode())
)
def test_arbitrary_bytes_never_fail_in_another_way(data: bytes) -> None:
    try:
        assert_safe(clean(data).svg)
    except UnreadablePicture as fault:
        assert fault.reason
