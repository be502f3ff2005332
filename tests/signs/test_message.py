import xml.etree.ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbgen.signs.message import SafetyMessage, html, titled
from kbgen.signs.register import codes, sign
from kbgen.signs.signal_word import SignalWord

HOT = SafetyMessage(
    SignalWord.WARNING,
    "The heater plate stays hot.",
    "It burns skin.",
    "Wait until it reads below 45 °C.",
    ("W017", "M009"),
)
PRINTABLE = st.text(st.characters(exclude_categories=("Cs", "Cc", "Co", "Cn")), max_size=40)


def words(element: ET.Element) -> str:
    return " | ".join(text.strip() for text in element.itertext() if text.strip())


def test_message_reads_in_order() -> None:
    assert words(ET.fromstring(html(HOT))) == (
        "WARNING | Hot surface | Wear protective gloves | The heater plate stays hot."
        " | It burns skin. | Wait until it reads below 45 °C."
    )


@pytest.mark.parametrize("word", SignalWord)
def test_box_carries_class_word_and_alert_symbol(word: SignalWord) -> None:
    box = ET.fromstring(html(SafetyMessage(word, "a", "b", "c")))
    assert box.get("class") == f"kb-hazard {word.panel_class}"
    assert box.findtext("p/strong") == word.value
    assert (box.find("p/svg") is not None) == word.is_about_injury
    assert box.find("ul") is None


@given(PRINTABLE, PRINTABLE, PRINTABLE)
def test_text_comes_out_as_text(hazard: str, consequence: str, avoidance: str) -> None:
    box = ET.fromstring(html(SafetyMessage(SignalWord.CAUTION, hazard, consequence, avoidance)))
    paragraphs = [paragraph.text or "" for paragraph in box.findall("p")[1:]]
    assert paragraphs == [hazard, *filter(None, (consequence, avoidance))]


@pytest.mark.parametrize("code", codes())
def test_every_drawing_has_its_title_in_words(code: str) -> None:
    entry = sign(code)
    assert entry is not None
    assert words(ET.fromstring(f"<p>{titled(code)}</p>")) == entry.title


def test_unknown_code_is_refused() -> None:
    with pytest.raises(KeyError):
        html(SafetyMessage(SignalWord.NOTICE, "a", "b", "c", ("W999",)))


def test_message_stays_on_one_line_for_markdown() -> None:
    assert "\n" not in html(HOT)
