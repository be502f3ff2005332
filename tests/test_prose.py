import re
from html.parser import HTMLParser

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from kbgen.prose import LONGEST, Link, links, plain, problems, render, render_inline

BLOCKS = {"p", "ul", "ol", "li"}
INLINE = {"em", "strong", "code", "a"}


def address(target: str) -> str:
    return f"to/{target}"


class Seen(HTMLParser):
    """Elements, attributes and text, in order; anything else an HTML parser knows is an error."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[str] = []
        self.attributes: list[tuple[str, str, str]] = []
        self.text = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes.extend((tag, name, value or "") for name, value in attrs)
        self.text += " " if tag in BLOCKS else ""

    def handle_endtag(self, tag: str) -> None:
        self.tags.append(f"/{tag}")
        self.text += " " if tag in BLOCKS else ""

    def handle_data(self, data: str) -> None:
        self.text += data

    def handle_comment(self, data: str) -> None:
        raise AssertionError(data)

    handle_decl = handle_pi = unknown_decl = handle_comment


def seen(html: str) -> Seen:
    parser = Seen()
    parser.feed(html)
    parser.close()
    return parser


def assert_safe(html: str, allowed: set[str]) -> None:
    found = seen(html)
    assert {tag.lstrip("/") for tag in found.tags} <= allowed
    for tag, name, value in found.attributes:
        assert (tag, name) in {("a", "href"), ("ol", "start")}
        assert re.match("to/(procedure|term|tool|part|#)" if tag == "a" else r"\d+$", value)


# --- What may stand in a text


@pytest.mark.parametrize(
    ("text", "html"),
    [
        ("", ""),
        ("  \n ", ""),
        ("Close the valve.", "<p>Close the valve.</p>"),
        (
            "*a* **b** `c` _d_ __e__",
            "<p><em>a</em> <strong>b</strong> <code>c</code> <em>d</em> <strong>e</strong></p>",
        ),
        ("one\n\ntwo", "<p>one</p><p>two</p>"),
        ("- a\n- b", "<ul><li>a</li><li>b</li></ul>"),
        ("1. a\n2. b", "<ol><li>a</li><li>b</li></ol>"),
        ("3) a", '<ol start="3"><li>a</li></ol>'),
        ("- a\n\n  b\n- c", "<ul><li><p>a</p><p>b</p></li><li><p>c</p></li></ul>"),
        ("- a\n  1. b", "<ul><li>a<ol><li>b</li></ol></li></ul>"),
        ("R<50 & U>3 \"x\" 'y'", "<p>R&lt;50 &amp; U&gt;3 &quot;x&quot; &#x27;y&#x27;</p>"),
        ("P_MAX_1 2 * 3 \\*x\\*", "<p>P_MAX_1 2 * 3 *x*</p>"),
        ("&lt;b&gt; &#60;", "<p>&amp;lt;b&amp;gt; &amp;#60;</p>"),
        ("# a\n> b\n***\n```\nc", "<p># a\n&gt; b\n***\n```\nc</p>"),
        ("a\\\nb", "<p>a\nb</p>"),
        ("[**a** b](tool:meter)", '<p><a href="to/tool:meter"><strong>a</strong> b</a></p>'),
    ],
)
def test_render(text: str, html: str) -> None:
    assert render(text, address) == html


@pytest.mark.parametrize(
    ("text", "html"),
    [
        ("", ""),
        (" plain ", "plain"),
        ("*a* `<b>`", "<em>a</em> <code>&lt;b&gt;</code>"),
        ("- 24 V at pin 3", "- 24 V at pin 3"),
        ("1. *a*", "1. <em>a</em>"),
        ("[a](#s)", '<a href="to/#s">a</a>'),
    ],
)
def test_render_inline(text: str, html: str) -> None:
    assert render_inline(text, address) == html


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Open *the* **valve** `V1`, see [it](part:v1)", "Open the valve V1, see it"),
        ("- a\n- b\n\nc\\\nd", "a b c d"),
        ("+ 24 V", "+ 24 V"),
        ("R<50 \\<b>", "R<50 <b>"),
        ("  a \n  b ", "a b"),
    ],
)
def test_plain(text: str, words: str) -> None:
    assert plain(text) == words


TARGETS = [
    "procedure:fan-stalls",
    "procedure:fan-stalls#measure",
    "#measure",
    "term:lockout",
    "tool:meter",
    "part:kx-100/2",
    "term:Öldruck",
]


@pytest.mark.parametrize("target", TARGETS)
def test_links_inside_the_knowledge_base(target: str) -> None:
    text = f"See [this]({target})."
    assert render(text, address) == f'<p>See <a href="to/{target}">this</a>.</p>'
    assert links(text) == (Link(11, target),)
    assert problems(text) == ()


def test_a_link_that_leads_nowhere_is_shown_without_link() -> None:
    assert render("See [*this*](tool:gone).", lambda target: None) == "<p>See <em>this</em>.</p>"


def test_the_address_is_escaped() -> None:
    assert render_inline("[a](#b)", lambda target: '"><script>') == '<a href="&quot;&gt;&lt;script&gt;">a</a>'


def test_a_cached_text_asks_for_its_addresses_every_time() -> None:
    assert render_inline("[a](#b)", lambda target: "1") != render_inline("[a](#b)", lambda target: "2")


def test_offsets_hold_in_lists_and_after_line_breaks() -> None:
    text = "  \n\n * a `[x](#y)`\r\n   [b](tool:b) \n\n 1.\t[c](<term:two words>)\n2. x"
    assert [(text[link.offset :][:6], link.target) for link in links(text)] == [
        ("tool:b", "tool:b"),
        ("term:t", "term:two words"),
    ]


# --- What may not

HOSTILE = [
    "<script>alert(1)</script>",
    "<img src=x onerror=alert(1)>",
    "<svg/onload=alert(1)>",
    "<svg onload=alert(1)//",
    "<iframe src=javascript:alert(1)>",
    "<b onmouseover=alert(1)>x</b>",
    "</p><script>alert(1)</script><p>",
    "<!-- --><script>alert(1)</script>",
    "<![CDATA[<script>alert(1)</script>]]>",
    "<?xml version='1.0'?>",
    "<!DOCTYPE html>",
    "<style>@import '//evil.example'</style>",
    "<a href=javascript:alert(1)>x</a>",
    "[x](javascript:alert(1))",
    "[x](JaVaScRiPt:alert(1))",
    "[x](<javascript:alert(1)>)",
    "[x](&#106;avascript:alert(1))",
    "[x](java&Tab;script:alert(1))",
    "[x](javascript&colon;alert(1))",
    "[x]( \tjavascript:alert(1) 'title')",
    "[x](data:text/html;base64,PHNjcmlwdD4=)",
    "[x](vbscript:msgbox(1))",
    "[x](https://evil.example)",
    "[x](//evil.example)",
    "[x](/etc)",
    "[x](file:///etc/passwd)",
    "[x](mailto:a@b.example)",
    "[x](procedure:../../x)",
    "[x](procedure:a?b)",
    '[x](#a"onmouseover="alert(1))',
    "[x](<#a onclick=alert(1)>)",
    "[x]()",
    "![x](https://evil.example/track.png)",
    '![x](x "onerror=alert(1)")',
    "![x](#a)",
    "<https://evil.example>",
    "<javascript:alert(1)>",
    "[x]: https://evil.example\n\n[x]",
    "[a [b](#c)](#d)",
    "[term](term:two words)",
    "[<img src=x onerror=alert(1)>](#a)",
    "*<script>*alert(1)*</script>*",
    "`a` <script>`</script>",
    "# Heading",
    "Heading\n===",
    "> quote",
    "| a | b |\n| --- | --- |\n| c | d |",
    "|-|",
    "```\ncode\n```",
    "~~~\ncode\n~~~",
    "***",
    "a\n\n- - -\n\nb",
    "- 24 V at pin 3",
    "+ 5 bar",
]


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_is_harmless_and_named(text: str) -> None:
    assert_safe(render(text, address), BLOCKS | INLINE)
    assert_safe(render_inline(text, address), INLINE)
    found = problems(text)
    assert found
    assert all(0 <= problem.offset <= len(text) and problem.what and problem.remedy for problem in found)


@pytest.mark.parametrize(
    "text",
    [
        "R<50 and U<Umin and I>Imax",
        "x < y > z, a<b and c>d, 3<x<5",
        "U<Uref if I=0 and P>3",
        "> 50 bar",
        "> -10 °C",
        "a -> b, <-, <=, =>",
        "`<b>` is shown as it is, \\<b> too",
        "`[x](https://a.example)`",
        "Use #1, then # 2 of the fans",
        "[1] and (2), [x] (y)",
        "| is a bar",
        "-24 V or - at the end -",
        "- 2 bolts M6\n- 3 washers",
        "* 24 V",
        "a_b * c_d",
        "[t](<term:two words>)",
        "Wow! [t](#a), \\![t](#a)",
        "P -- Q",
    ],
)
def test_ordinary_text_is_not_a_problem(text: str) -> None:
    assert problems(text) == ()


def test_problems_say_where_and_what() -> None:
    text = "See [x](https://a.example) or\n![p](y) <b>."
    assert [(text[found.offset :][:5], found.what) for found in problems(text)] == [
        ("https", "a link to “https://a.example”"),
        ("![p](", "a picture"),
        ("<b>.", "HTML (<b>)"),
    ]


def test_a_text_of_absurd_length_is_shown_as_it_is_written() -> None:
    text = "*[" * LONGEST
    assert render(text, address) == f"<p>{text}</p>"
    assert plain(text) == text
    assert [problem.offset for problem in problems(text)] == [LONGEST]


# --- Whatever the text

PIECES = """
* ** _ __ ` `` [ ] ( ) ![ ]( < > </ <b> <script> <!-- --> & &amp; &#60; \\ # > | ~~~ ``` --- === - + 1. 2) a b 24 R<50
[a](#b) [a](term:b) [a](<term:b c>) [a](javascript:b) [a](https://b) " ' : javascript: onerror= [a]: é \0
"""
FRAGMENTS = st.sampled_from(PIECES.split()) | st.sampled_from(
    [" ", "  ", "    ", "\t", "\n", "\n\n", "\r\n", "\u2003\n"]
)
TEXTS = st.lists(FRAGMENTS | st.text(max_size=3), max_size=20).map("".join)


@settings(max_examples=400, deadline=None)
@given(TEXTS)
@example("\u2003\n[a](#b)")
def test_no_text_gives_an_element_or_attribute_that_is_not_allowed(text: str) -> None:
    assert_safe(render(text, address), BLOCKS | INLINE)
    assert_safe(render_inline(text, address), INLINE)


def words(text: str) -> list[str]:
    return text.replace("\0", "\ufffd").split()


@settings(max_examples=400, deadline=None)
@given(TEXTS)
def test_plain_text_is_what_a_reader_of_the_page_sees(text: str) -> None:
    shown = render(text, address) if re.search("[\r\n]", text.strip()) else render_inline(text, address)
    assert plain(text).split() == words(seen(shown).text)


@settings(max_examples=300, deadline=None)
@given(TEXTS.filter(lambda text: "[" not in text))
def test_commonmark_decides_what_is_markup(text: str) -> None:
    reference = MarkdownIt("zero", {"maxNesting": 100}).enable(["list", "escape", "backticks", "emphasis"])
    mine, theirs = seen(render(text, address)), seen(reference.render(text.strip()).replace("<br>", " "))
    assert mine.tags == theirs.tags
    assert words(mine.text) == words(theirs.text)


@settings(max_examples=400, deadline=None)
@given(TEXTS)
@example("\u2003\n[a](#b)\n\u2003")
@example("- \t[a](#b)\r\n  [c](#d)")
@example("[a](#b)\x1f")
@example("\0- [a](#b)\0")
def test_links_are_those_that_render_asks_for_and_their_offsets_point_at_them(text: str) -> None:
    asked: list[str] = []
    render(text, lambda target: asked.append(target))
    assert [link.target for link in links(text.strip())] == asked
    for link in links(text):
        assert text.startswith(link.target, link.offset)


@settings(max_examples=300, deadline=None)
@given(TEXTS)
def test_problems_lie_in_the_text_and_in_its_order(text: str) -> None:
    offsets = [problem.offset for problem in problems(text)]
    assert offsets == sorted(offsets)
    assert all(0 <= offset < len(text) for offset in offsets)
