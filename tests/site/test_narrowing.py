"""Narrowing down in a real browser: answers, ranking, the next question and the address."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.site.conftest import Browsing

Browse = Callable[..., Browsing]
ROOM = "narrow/display-room-panel.html"
FAN = "Fan of an air cooler stands or its breaker trips"
ICED = "Air cooler iced up, cold room too warm"
FAN_CODE = "Room panel shows RM 51"
ROOM_CODE = "Room panel shows RM 31"


def row(page: Page, words: str) -> Locator:
    return page.locator(".kb-nd-row", has=page.locator(".kb-nd-label", has_text=words))


def answer(page: Page, words: str, name: str) -> None:
    row(page, words).get_by_role("button", name=name, exact=True).click()


def faults(page: Page) -> list[str]:
    page.locator(".kb-nd-fault").first.wait_for()
    return page.locator(".kb-nd-fault h3").all_inner_texts()


def test_it_is_reached_from_the_first_page(browse: Browse, root: str) -> None:
    page = browse(root).open("index.html")
    page.locator(".kb-nav a", has_text="Narrow down").click()
    page.locator(".kb-tiles a", has_text="Room panel").click()
    expect(page.locator("h1")).to_have_text("Narrow down: Room panel")
    expect(page.locator(".kb-nd-list")).to_have_count(0)
    assert {FAN, ICED} <= set(faults(page))


def test_an_answer_changes_the_ranking_and_says_so(browse: Browse, root: str) -> None:
    page = browse(root).open(ROOM)
    expect(page.locator("[data-nd-status]")).to_contain_text("Nothing answered yet")
    answer(page, FAN_CODE, "Yes")
    assert faults(page)[0] == FAN
    expect(page.get_by_role("status")).to_contain_text(FAN)
    expect(row(page, FAN_CODE).get_by_role("button", name="Yes")).to_have_attribute("aria-pressed", "true")
    answer(page, FAN_CODE, "No")
    assert faults(page)[0] != FAN
    expect(row(page, FAN_CODE).get_by_role("button", name="Yes")).to_have_attribute("aria-pressed", "false")


def test_a_fault_says_how_sure_it_is_and_leads_to_its_procedure(browse: Browse, root: str) -> None:
    page = browse(root).open(ROOM)
    answer(page, FAN_CODE, "Yes")
    first = page.locator(".kb-nd-fault").first
    expect(first.locator(".kb-nd-chance")).to_contain_text("(between")
    expect(first).to_contain_text("Likeliest cause:")
    expect(first).to_contain_text("Hazards: DANGER:")
    expect(first).to_contain_text("judged")
    first.locator("h3 a").click()
    expect(page.locator("h1")).to_have_text(FAN)


def test_the_answers_are_in_the_address(browse: Browse, root: str) -> None:
    page = browse(root).open(ROOM)
    answer(page, FAN_CODE, "Yes")
    answer(page, ROOM_CODE, "No")
    found, address = faults(page), page.url
    assert "#yes=room-panel%3ARM%2051&no=room-panel%3ARM%2031" in address
    page.locator(".kb-nd-fault h3 a").first.click()
    page.locator("#steps").wait_for()
    page.go_back()
    expect(row(page, FAN_CODE).get_by_role("button", name="Yes")).to_have_attribute("aria-pressed", "true")
    assert faults(page) == found
    page.get_by_role("button", name="Clear all answers").click()
    expect(page.locator("[data-nd-status]")).to_contain_text("Nothing answered yet")
    page.goto(address)
    assert faults(page) == found


def test_an_address_with_answers_that_are_gone_says_so(browse: Browse, root: str) -> None:
    page = browse(root).open(f"{ROOM}#yes=room-panel%3ARM%2051,gone.gone")
    expect(page.locator("[data-nd-unknown]")).to_be_visible()
    assert faults(page)[0] == FAN


def test_the_proposed_question_is_answered_where_it_stands(browse: Browse, root: str) -> None:
    page = browse(root).open(ROOM)
    asked = []
    for name in ("Not checked", "No", "Yes"):
        card = page.locator(".kb-nd-card")
        expect(card).to_contain_text("Why this one:")
        asked.append(page.locator("#nd-asked").inner_text())
        card.get_by_role("button", name=name, exact=True).click()
        expect(page.locator("#nd-asked")).to_be_focused()
    assert len(set(asked)) == 3
    assert all(key in page.url for key in ("yes=", "no=", "later="))


def test_a_proposed_look_leads_to_its_step_with_its_hazards(browse: Browse, root: str) -> None:
    page = browse(root).open("narrow/family-belt-conveyor.html")
    for _ in range(20):
        how = page.locator(".kb-nd-card a")
        if how.count():
            break
        page.locator(".kb-nd-card").get_by_role("button", name="Not checked").click()
    expect(page.locator(".kb-nd-card")).to_contain_text("Look from outside")
    expect(page.locator(".kb-nd-card")).to_contain_text("Mind: DANGER:")
    how.click()
    expect(page.locator(":target")).to_be_visible()


def test_it_works_by_keyboard(browse: Browse, root: str) -> None:
    page = browse(root).open(ROOM)
    page.locator(".kb-nd-card button").first.focus()
    page.keyboard.press("Enter")
    expect(page.locator("#nd-asked")).to_be_focused()
    page.keyboard.press("Tab")
    page.keyboard.press("Space")
    assert "yes=" in page.url


def test_skipping_to_the_content_keeps_the_answers(browse: Browse, root: str) -> None:
    page = browse(root).open(ROOM)
    answer(page, FAN_CODE, "Yes")
    page.locator(".kb-skip").focus()
    page.keyboard.press("Enter")
    assert faults(page)[0] == FAN
    answer(page, ROOM_CODE, "Yes")
    assert "yes=room-panel%3ARM%2031,room-panel%3ARM%2051" in page.url


def test_symptoms_are_found_by_words_also_other_ones(browse: Browse, root: str) -> None:
    page = browse(root).open(ROOM)
    page.get_by_label("Find a code or symptom").fill("buzzes")
    expect(page.locator(".kb-nd-row")).to_have_count(1)
    answer(page, "The fan hums", "Yes")
    assert faults(page)[0] == FAN
    page.get_by_label("Find a code or symptom").fill("zzqq")
    expect(page.locator("[data-nd-none]")).to_be_visible()


def test_where_nothing_fits_it_says_whom_to_call(browse: Browse, root: str) -> None:
    page = browse(root).open(ROOM)
    page.get_by_role("button", name="Show more").click()
    for number in range(page.locator(".kb-nd-row").count()):
        page.locator(".kb-nd-row").nth(number).get_by_role("button", name="No", exact=True).click()
    expect(page.locator("[data-nd-none-fits]")).to_contain_text("If nothing fits, call")
    assert faults(page)[0] == "Something that no procedure here describes"


@pytest.mark.parametrize("width", [390, 800])
def test_buttons_suit_gloves(browse: Browse, folder_root: str, width: int) -> None:
    page = browse(folder_root, viewport={"width": width, "height": 900}).open(ROOM)
    sizes = page.locator(".kb-nd-choices button").evaluate_all(
        "all => all.map(one => one.getBoundingClientRect()).map(one => Math.min(one.width, one.height))"
    )
    assert sizes
    assert min(sizes) >= 48


def test_without_scripts_symptoms_lead_to_procedures(browse: Browse, root: str) -> None:
    page = browse(root, java_script_enabled=False).open(ROOM)
    expect(page.locator("[data-kb-narrow]")).to_be_hidden()
    entry = page.locator(".kb-nd-list > li", has_text="The fan hums and does not start")
    expect(entry).to_be_visible()
    entry.locator("a").first.click()
    expect(page.locator("h1")).to_have_text(FAN)
