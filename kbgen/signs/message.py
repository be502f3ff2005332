"""A safety message as HTML: signal word, signs with their titles, hazard, consequence, how to avoid it."""

from dataclasses import dataclass
from html import escape

from kbgen.signs.register import sign
from kbgen.signs.signal_word import SignalWord
from kbgen.signs.svg import use

_ALERT = (
    '<svg class="kb-alert" aria-hidden="true" focusable="false" viewBox="0 0 24 24">'
    '<path d="M12 1.5 23.5 22H.5zM10.8 8.5v6.5h2.4V8.5zM10.8 17v2.4h2.4V17z"/></svg>'
)


@dataclass(frozen=True)
class SafetyMessage:
    """Plain text in the order in which it is read; `codes` name signs of the register."""

    word: SignalWord
    hazard: str
    consequence: str
    avoidance: str
    codes: tuple[str, ...] = ()


def html(message: SafetyMessage) -> str:
    """The message box on one line, all text escaped; an empty text gives no paragraph.

    Its signs refer to the symbol sheet of the page. Raises KeyError for a code outside the register.
    """
    alert = f"{_ALERT} " if message.word.is_about_injury else ""
    return (
        f'<div class="kb-hazard {message.word.panel_class}">'
        f'<p class="kb-signal">{alert}<strong>{message.word.value}</strong></p>'
        f"{_signs(message.codes)}"
        f'<p class="kb-hazard-what">{escape(message.hazard)}</p>'
        f"{_paragraph(message.consequence)}{_paragraph(message.avoidance)}</div>"
    )


def titled(code: str) -> str:
    """The drawing of a sign followed by its title in words. Raises KeyError for a code outside the register."""
    entry = sign(code)
    if entry is None:
        raise KeyError(code)
    return f"{use(code)} <span>{escape(entry.title)}</span>"


def _paragraph(text: str) -> str:
    return f"<p>{escape(text)}</p>" if text else ""


def _signs(codes: tuple[str, ...]) -> str:
    if not codes:
        return ""
    return f'<ul class="kb-hazard-signs">{"".join(f"<li>{titled(code)}</li>" for code in codes)}</ul>'
