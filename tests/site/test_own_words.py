"""Faults described as people at the machine do, typed on a tablet without a network, each found in a few taps."""

from __future__ import annotations

from collections.abc import Callable

from playwright.sync_api import Page, expect

from tests.site.conftest import Browsing

TABLET = {"width": 800, "height": 1280}
KEYBOARD_TOP = 780
"""Below this the tablet's own keyboard covers the page until it is swiped."""

MOST_TAPS = 3
FINGER = 48
TOP = "one => one.getBoundingClientRect().top"
ANSWERED = "words => new URLSearchParams(location.search || location.hash.slice(1)).get('q') === words"
"""The address is changed when the results are shown."""

DESCRIBED = (
    ("cartons not opening, arm is slow", "case-erector-air-low"),
    ("hissing at the box maker", "case-erector-air-low"),
    ("forklift wont charge", "charger-earth-fault"),
    ("acid in battery tray, charger tripped", "charger-earth-fault"),
    ("compressor cuts out on hot days", "compressor-high-pressure"),
    ("condensor full of fluff", "compressor-high-pressure"),
    ("fan not spinning in cold room", "cooler-fan-stands"),
    ("evaporator fan trips breaker", "cooler-fan-stands"),
    ("ice all over the evaporator", "cooler-iced-up"),
    ("apples getting warm coil frozen", "cooler-iced-up"),
    ("temp reading jumps about", "room-temperature-wrong"),
    ("thermometer shows rubbish", "room-temperature-wrong"),
    ("undervoltage when we start up in the morning", "conveyor-trips-on-low-voltage"),
    ("belt motor overloaded", "conveyor-trips-on-overload"),
    ("conveyer stuck motor hot", "conveyor-trips-on-overload"),
    ("dock ramp flap wont fold out", "leveller-lip-not-out"),
    ("loading ramp drops when truck drives on", "leveller-sinks-under-load"),
    ("oil under dock plate ramp creeping down", "leveller-sinks-under-load"),
    ("sorter puts fruit in wrong lane", "grader-loses-count"),
    ("pump rattles hardly any water", "flume-pump-low-flow"),
)
"""Written down before any of them was tried, from what was known of the faults; not changed since."""


def taps_to(page: Page, name: str) -> int | None:
    """Swipes and taps from the last key to the procedure; None where it is not among the results."""
    target = page.locator(f".kb-results a[href$='procedure/{name}.html']")
    if not target.count():
        return None
    taps, bottom = 0, KEYBOARD_TOP
    while float(target.evaluate(TOP)) + FINGER > bottom:
        taps, bottom = taps + 1, TABLET["height"]
        page.evaluate("scrollBy({top: innerHeight * 0.8, behavior: 'instant'})")
    target.tap()
    expect(page.locator("[data-kb-procedure]")).to_have_attribute("data-kb-procedure", f"procedure/{name}.html")
    return taps + 1


def test_faults_in_ones_own_words_are_found_in_three_taps(browse: Callable[..., Browsing], folder_root: str) -> None:
    browsing = browse(folder_root, viewport=TABLET, has_touch=True, offline=True)
    page = browsing.context.new_page()
    needed = {}
    for words, name in DESCRIBED:
        page.goto(f"{folder_root}index.html")
        page.locator("#kb-q").tap()
        page.keyboard.type(words)
        page.wait_for_function(ANSWERED, arg=words)
        needed[words] = taps_to(page, name)
    assert {words: taps for words, taps in needed.items() if taps is None or taps > MOST_TAPS} == {}
