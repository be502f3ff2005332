"""The little Markdown that texts in procedures may use: emphasis, strong, code, lists, links in the knowledge base.

Whatever else a text holds is shown as the characters it is made of, so that rendering is safe for any text from anyone;
`problems` tells an author what will not do what he meant. CommonMark decides what is markup.
"""

import html
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from markdown_it import MarkdownIt
from markdown_it.rules_inline import StateInline, backtick
from markdown_it.rules_inline import link as inline_link
from markdown_it.token import Token

Resolve = Callable[[str], str | None]

LONGEST = 10_000
_CACHED = 8192
_INLINE_MARKUP = re.compile(r"[*_`\[\\\x00\r\n]")
_BLOCK_MARKUP = re.compile(rf"(?:[-+]|\d{{1,9}}[.)])(?:\s|$)|.*{_INLINE_MARKUP.pattern}")
_SUSPICIOUS = re.compile(r"[<\[]|^[^\S\r\n]*[-+#>=~`|*_]|\|[^\S\r\n]*:?-", re.MULTILINE)
_NAME = r"\w[\w.\-/]*"
_TARGET = re.compile(rf"(?:procedure:{_NAME})?#{_NAME}|(?:procedure|tool|part):{_NAME}|term:\w[\w .\-/]*")
_LINE_BREAK = re.compile(r"\r\n?|\n")


@dataclass(frozen=True)
class ProseProblem:
    """Something that may not stand in a text: where it begins, what it is (a noun phrase), what to do about it."""

    offset: int
    what: str
    remedy: str


@dataclass(frozen=True)
class Link:
    """A link inside the knowledge base: where its target begins in the text, and the target as written."""

    offset: int
    target: str


def render(text: str, link: Resolve) -> str:
    """Return HTML blocks. `link` turns a target into an address, or None: then only the text of the link is shown."""
    text = text.strip()
    if not _BLOCK_MARKUP.match(text):
        return f"<p>{html.escape(text)}</p>" if text else ""
    return _joined(_blocks(text), link)


def render_inline(text: str, link: Resolve) -> str:
    """Return HTML without blocks, for texts of one line; what would begin a list is shown as it is written."""
    text = text.strip()
    if not _INLINE_MARKUP.search(text):
        return html.escape(text)
    return _joined(_line(text), link)


@lru_cache(_CACHED)
def plain(text: str) -> str:
    """Return the words that a reader sees, on one line and without markup; this is text, not HTML."""
    text = text.strip()
    if _INLINE_MARKUP.search(text):
        parser = _parser(text)
        tokens = parser.parse(text) if _LINE_BREAK.search(text) else parser.parseInline(text)
        text = "".join(_words(tokens))
    return " ".join(text.split())


def links(text: str) -> tuple[Link, ...]:
    """Return the links whose target has an allowed form, in the order of the text."""
    return tuple(Link(span.target_at, span.target) for span in _spans(text) if _TARGET.fullmatch(span.target))


def problems(text: str) -> tuple[ProseProblem, ...]:
    """Return what is not allowed in the text, in the order of the text."""
    return _problems(text) if len(text) > LONGEST or _SUSPICIOUS.search(text) else ()


# --- Parsing


class _Subset(MarkdownIt):
    """CommonMark cut down to what is allowed. Every link is parsed, so that a forbidden one can be named and unmade."""

    def __init__(self) -> None:
        super().__init__("zero", {"maxNesting": 100})
        self.enable(["list", "escape", "backticks", "emphasis", "link"])
        self.inline.ruler.at("link", _placed(inline_link, "link_open"))
        self.inline.ruler.at("backticks", _placed(backtick, "code_inline"))

    def normalizeLink(self, url: str) -> str:  # noqa: N802
        return url

    def validateLink(self, url: str) -> bool:  # noqa: N802
        return True


def _placed(rule: Callable[[StateInline, bool], bool], kind: str) -> Callable[[StateInline, bool], bool]:
    """Let a rule of the parser note in its token where the markup begins and ends."""

    def placed(state: StateInline, silent: bool) -> bool:
        start, known = state.pos, len(state.tokens)
        if not rule(state, silent):
            return False
        token = next((token for token in state.tokens[known:] if token.type == kind), None)
        if token is not None:
            is_link = kind == "link_open"
            label_end = state.md.helpers.parseLinkLabel(state, start, True) if is_link else start + len(token.markup)
            token.meta = {"start": start, "label_end": label_end, "end": state.pos}
        return True

    return placed


_MARKDOWN = _Subset()
_LITERAL = MarkdownIt("zero")


def _parser(text: str) -> MarkdownIt:
    """Return the parser for a text; one of absurd length is shown as it is written, since parsing takes its square."""
    return _MARKDOWN if len(text) <= LONGEST else _LITERAL


# --- Rendering

_TAGS = {
    **{f"{name}_open": tag for name, tag in (("paragraph", "<p>"), ("em", "<em>"), ("strong", "<strong>"))},
    **{f"{name}_close": tag for name, tag in (("paragraph", "</p>"), ("em", "</em>"), ("strong", "</strong>"))},
    **{"bullet_list_open": "<ul>", "bullet_list_close": "</ul>", "ordered_list_close": "</ol>"},
    **{"list_item_open": "<li>", "list_item_close": "</li>", "hardbreak": "\n", "softbreak": "\n"},
}


@dataclass(frozen=True)
class _Anchor:
    target: str
    inside: str


_Piece = str | _Anchor


def _joined(pieces: Sequence[_Piece], link: Resolve) -> str:
    return "".join(piece if isinstance(piece, str) else _anchored(piece, link) for piece in pieces)


def _anchored(anchor: _Anchor, link: Resolve) -> str:
    address = link(anchor.target)
    return anchor.inside if address is None else f'<a href="{html.escape(address)}">{anchor.inside}</a>'


@lru_cache(_CACHED)
def _blocks(text: str) -> tuple[_Piece, ...]:
    return tuple(_pieces(_parser(text).parse(text)))


@lru_cache(_CACHED)
def _line(text: str) -> tuple[_Piece, ...]:
    return tuple(_pieces(_parser(text).parseInline(text)))


def _pieces(tokens: Sequence[Token]) -> Iterator[_Piece]:
    for token in tokens:
        if token.type == "inline":
            yield from _inline_pieces(token.children or [])
        elif token.type == "ordered_list_open":
            yield f'<ol start="{int(token.attrs.get("start", 1))}">' if "start" in token.attrs else "<ol>"
        elif not token.hidden:
            yield _TAGS[token.type]


def _inline_pieces(tokens: Sequence[Token]) -> Iterator[_Piece]:
    pieces: list[str] = []
    target = ""
    for token in tokens:
        if token.type in ("link_open", "link_close"):
            inside = "".join(pieces)
            yield _Anchor(target, inside) if _TARGET.fullmatch(target) else inside
            pieces, target = [], str(token.attrs.get("href", ""))
        else:
            pieces.append(_inline_html(token))
    yield "".join(pieces)


def _inline_html(token: Token) -> str:
    if token.type == "text":
        return html.escape(token.content)
    if token.type == "code_inline":
        return f"<code>{html.escape(token.content)}</code>"
    return _TAGS[token.type]


def _words(tokens: Sequence[Token]) -> Iterator[str]:
    for token in tokens:
        if token.type == "inline":
            yield from _words(token.children or [])
        elif token.type in ("text", "code_inline"):
            yield token.content
        elif token.block or token.type in ("hardbreak", "softbreak"):
            yield " "


# --- Places in the text


@dataclass(frozen=True)
class _Span:
    """A link or a piece of code in the text. From `hidden_from` on nothing in it can be markup; code has no target."""

    start: int
    hidden_from: int
    end: int
    target_at: int
    target: str
    is_link: bool


def _spans(text: str) -> tuple[_Span, ...]:
    return _parsed_spans(text) if "[" in text or "`" in text else ()


@lru_cache(_CACHED)
def _parsed_spans(text: str) -> tuple[_Span, ...]:
    tokens = [token for token in _parser(text).parse(text) if token.type == "inline"]
    starts = [0, *(match.end() for match in _LINE_BREAK.finditer(text))]
    lines = _LINE_BREAK.split(text.replace("\0", "\ufffd"))
    return tuple(span for token in tokens for span in _spans_of(token, _places(token, lines, starts), text))


def _places(inline: Token, lines: Sequence[str], starts: Sequence[int]) -> list[int]:
    """Return the offset in the text of each character of a block's content.

    The parser takes the indent and the list marker off each line and blanks off both ends of the block, so that the
    lines are matched from the right.
    """
    content = inline.content.split("\n")
    first, last = inline.map or [0, 0]
    while last - first > len(content) and content[0] not in lines[first]:
        first += 1
    places: list[int] = []
    for row, line in enumerate(content, first):
        words = line.lstrip(" \t")
        end = starts[row] + lines[row].rfind(words) + len(words)
        places.extend(range(end - len(line), end + 1))
    return places


def _spans_of(inline: Token, places: Sequence[int], text: str) -> Iterator[_Span]:
    for token in inline.children or []:
        if token.type in ("link_open", "code_inline"):
            start, label_end, end = (places[token.meta[name]] for name in ("start", "label_end", "end"))
            is_link = token.type == "link_open"
            target_at = label_end + 2
            while text[target_at : target_at + 1].isspace() or text[target_at : target_at + 1] == "<":
                target_at += 1
            yield _Span(start, label_end, end, target_at, str(token.attrs.get("href", "")), is_link)


# --- Problems

_TAG = re.compile(
    r"(?<!\\)<(?:!--|!DOCTYPE\b|\?xml\b|/?[a-z][\w-]*\s*/?>|[a-z][\w-]*\s+[a-z][\w:-]*\s*=|(?:script|style|iframe|img|svg)\b)",
    re.IGNORECASE,
)
_ADDRESS = re.compile(r"(?<!\\)<[a-z][a-z0-9+.-]+:[^\s<>]*>", re.IGNORECASE)
_UNREAD_LINK = re.compile(r"\]\(\s*<?(?:#|[a-z][a-z0-9+.-]*:)|^ {0,3}\[[^\]\n]+\]:\s*\S", re.IGNORECASE | re.MULTILINE)
_SIGNED_LINE = re.compile(r"^[ \t]*[-+][ \t]+\d", re.MULTILINE)
_TARGETS = "procedure:ID, procedure:ID#step, #step, term:WORD, tool:ID or part:ID"
_CELL = r"[ \t]*+:?-+:?[ \t]*+"
_LINES = (
    (r" {0,3}#{1,6}[ \t]+\S", "a heading", "Take the # out; use **strong**."),
    (r"(?=[^\n]*\S)[^\n]++\n {0,3}(?:=+|--+)[ \t]*$", "a heading", "Take the line under it out; use **strong**."),
    (r" {0,3}>(?!\s*[=\d.,+−-])\s*\S", "a block quote", "Take the > at the start of the line out."),
    (rf"[ \t]*+(?:\|{_CELL}|\|?{_CELL}(?:\|{_CELL})+)\|?[ \t]*$", "a table", "Use a list."),
    (r" {0,3}(?:```|~~~)", "a block of code", "Use `code` within a line."),
    (r" {0,3}(?:(?:\*[ \t]*){3,}|(?:_[ \t]*){3,}|(?:-[ \t]*){3,})$", "a dividing line", "Use an empty line."),
)
_LINE_PATTERNS = tuple((re.compile(f"^(?:{form})", re.MULTILINE), what, remedy) for form, what, remedy in _LINES)


@lru_cache(_CACHED)
def _problems(text: str) -> tuple[ProseProblem, ...]:
    spans = _spans(text)
    shown = list(text)
    for span in spans:
        shown[span.hidden_from : span.end] = "\0" * (span.end - span.hidden_from)
    found = [*_link_problems(text, spans), *_pattern_problems("".join(shown)), *_sign_problems(text)]
    if len(text) > LONGEST:
        found.append(ProseProblem(LONGEST, f"more than {LONGEST:,} characters", "Split it; its markup is not read."))
    return tuple(sorted(set(found), key=lambda problem: (problem.offset, problem.what)))


def _link_problems(text: str, spans: Sequence[_Span]) -> Iterator[ProseProblem]:
    for span in (span for span in spans if span.is_link):
        before = text[max(0, span.start - 2) : span.start]
        if before.endswith("!") and before != "\\!":
            yield ProseProblem(span.start - 1, "a picture", "Show it with the picture key of the step.")
        elif not _TARGET.fullmatch(span.target):
            yield ProseProblem(span.target_at, f"a link to “{span.target[:60]}”", f"Link only to {_TARGETS}.")


def _pattern_problems(shown: str) -> Iterator[ProseProblem]:
    for match in _TAG.finditer(shown):
        yield ProseProblem(
            match.start(), f"HTML ({match[0][:20]})", "Take it out; use *emphasis*, **strong** or `code`."
        )
    for match in _ADDRESS.finditer(shown):
        yield ProseProblem(match.start(), f"a link to “{match[0][1:-1][:60]}”", f"Link only to {_TARGETS}.")
    for match in _UNREAD_LINK.finditer(shown):
        remedy = "Write [text](target); a target with spaces goes into angle brackets: [text](<term:two words>)."
        yield ProseProblem(match.start(), "a link that cannot be read", remedy)
    for pattern, what, remedy in _LINE_PATTERNS:
        for match in pattern.finditer(shown):
            yield ProseProblem(match.start(), what, remedy)


def _sign_problems(text: str) -> Iterator[ProseProblem]:
    """Find `- 24 V`, which CommonMark takes for a list of one line: the sign would be lost."""
    if not _SIGNED_LINE.search(text):
        return
    tokens = _parser(text).parse(text)
    starts = [0, *(match.end() for match in _LINE_BREAK.finditer(text))]
    for place, token in enumerate(tokens):
        if token.type == "bullet_list_open" and token.markup in "-+" and _is_single_number(tokens[place:]):
            remedy = "Write the sign without a space, as in -24 V; begin a list with an asterisk."
            yield ProseProblem(starts[(token.map or [0])[0]], "a sign that would be read as the mark of a list", remedy)


def _is_single_number(tokens: Sequence[Token]) -> bool:
    level = tokens[0].level
    end = next(place for place, token in enumerate(tokens) if token.nesting < 0 and token.level == level)
    items = [token for token in tokens[:end] if token.type == "list_item_open" and token.level == level + 1]
    words = [token.content for token in tokens[:end] if token.type == "inline"]
    return len(items) == 1 and bool(words) and words[0][:1].isdigit()
