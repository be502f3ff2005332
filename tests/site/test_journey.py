"""What a technician does at the machine, in a real browser: from the folder and from a web server."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from tests.site.conftest import Browsing

Browse = Callable[..., Browsing]
ICED = "procedure/cooler-iced-up.html"
ICED_TITLE = "Air cooler iced up, cold room too warm"
A4 = {"width": 794, "height": 1123}
IN_VIEW = "one => { const box = one.getBoundingClientRect(); return box.top >= -1 && box.top < innerHeight / 2; }"
TOP = "one => one.getBoundingClientRect().top"


def type_query(page: Page, text: str) -> None:
    page.locator("#kb-q").fill(text)


def results(page: Page) -> list[str]:
    page.locator(".kb-result").first.wait_for()
    return page.locator(".kb-result-title").all_inner_texts()


def assert_at(page: Page, anchor: str) -> None:
    target = page.locator(":target")
    expect(target).to_have_id(anchor)
    page.wait_for_function("() => document.querySelector(':target').getBoundingClientRect().top < innerHeight / 2")
    assert target.evaluate(IN_VIEW)


def test_symptom_words_lead_to_the_procedure(browse: Browse, root: str) -> None:
    page = browse(root).open("index.html")
    type_query(page, "block of ice on the cooler")
    assert results(page)[0] == ICED_TITLE
    expect(page.locator(".kb-search-status")).to_contain_text("result")
    page.locator(".kb-result").first.click()
    expect(page.locator("h1")).to_have_text(ICED_TITLE)


@pytest.mark.parametrize("spelling", ["RM 31", "rm31", "RM-31", "rm 031"])
def test_a_code_is_found_however_it_is_spelt(browse: Browse, root: str, spelling: str) -> None:
    page = browse(root).open("index.html")
    type_query(page, spelling)
    assert ICED_TITLE in results(page)
    expect(page.locator(".kb-result-reason", has_text="Code").first).to_be_visible()


def test_enter_opens_the_first_result(browse: Browse, root: str) -> None:
    page = browse(root).open("index.html")
    type_query(page, "cooler is a block of ice")
    page.keyboard.press("Enter")
    expect(page.locator("h1")).to_have_text(ICED_TITLE)


@pytest.mark.parametrize("address", ["index.html?q=RM+31", "index.html#q=RM%2031"])
def test_a_search_has_an_address(browse: Browse, root: str, address: str) -> None:
    page = browse(root).open(address)
    expect(page.locator("#kb-q")).to_have_value("RM 31")
    assert ICED_TITLE in results(page)


def test_the_address_keeps_what_was_typed(browse: Browse, root: str) -> None:
    page = browse(root).open("index.html")
    type_query(page, "RM 31")
    found = results(page)
    page.wait_for_function("() => location.href.includes('q=RM')")
    page.reload()
    assert results(page) == found


def test_nothing_found_says_so_and_whom_to_call(browse: Browse, root: str) -> None:
    page = browse(root).open("index.html")
    type_query(page, "zzqqxx wwvvkk")
    status = page.locator(".kb-search-status")
    expect(status).to_contain_text("Nothing found for “zzqqxx wwvvkk”.")
    expect(page.locator(".kb-call")).to_contain_text("Maintenance lead on duty")
    expect(page.locator(".kb-search-hints")).to_be_visible()
    expect(page.locator(".kb-result")).to_have_count(0)


def test_the_back_button_leads_back_to_the_results(browse: Browse, root: str) -> None:
    page = browse(root).open("index.html")
    type_query(page, "RM 31")
    found = results(page)
    page.locator(".kb-result").first.click()
    page.locator("#steps").wait_for()
    page.go_back()
    expect(page.locator("#kb-q")).to_have_value("RM 31")
    assert results(page) == found


def test_hazards_come_before_the_steps(browse: Browse, root: str) -> None:
    page = browse(root).open(ICED)
    hazards, steps = page.locator(".kb-hazards"), page.locator(".kb-step").first
    expect(hazards).to_be_visible()
    assert page.locator(".kb-hazards > *").count() > 2
    assert hazards.evaluate(TOP) < page.locator("#flowchart").evaluate(TOP) < steps.evaluate(TOP)


def test_an_answer_leads_to_its_step_and_back(browse: Browse, root: str) -> None:
    page = browse(root).open(ICED)
    first = page.locator(".kb-step").first
    answer = first.locator(".kb-way[href^='#step-']").first
    anchor = (answer.get_attribute("href") or "")[1:]
    answer.click()
    assert_at(page, anchor)
    page.go_back()
    expect(page.locator(":target")).to_have_count(0)
    assert page.url.endswith(ICED)


def test_a_shape_of_the_flowchart_leads_to_its_step(browse: Browse, root: str) -> None:
    page = browse(root).open(ICED)
    shape = page.locator("svg.kb-chart a[href^='#step-']").nth(3)
    anchor = (shape.get_attribute("href") or "")[1:]
    shape.click()
    assert_at(page, anchor)


def test_the_flowchart_can_be_read_as_text(browse: Browse, root: str) -> None:
    page = browse(root).open(ICED)
    steps = set(
        page.locator("svg.kb-chart a[href^='#step-']").evaluate_all("all => all.map(one => one.getAttribute('href'))")
    )
    page.locator(".kb-outline summary").click()
    links = page.locator(".kb-outline a")
    expect(links.first).to_be_visible()
    assert steps <= set(links.evaluate_all("all => all.map(one => one.getAttribute('href'))"))
    links.nth(2).click()
    expect(page.locator(":target")).to_be_visible()


def test_the_flowchart_is_reached_by_keyboard(browse: Browse, root: str) -> None:
    page = browse(root).open(ICED)
    shape = page.locator("svg.kb-chart a[href^='#step-']").nth(1)
    anchor = (shape.get_attribute("href") or "")[1:]
    shape.focus()
    page.keyboard.press("Enter")
    assert_at(page, anchor)


def test_the_colour_scheme_is_kept(browse: Browse, root: str) -> None:
    page = browse(root, color_scheme="light").open("index.html")
    page.get_by_role("button", name="Switch to dark colours").click()
    expect(page.locator("body")).to_have_attribute("data-md-color-scheme", "slate")
    page.locator(".kb-nav a", has_text="Tools").click()
    expect(page.locator("h1")).to_have_text("Tools")
    expect(page.locator("body")).to_have_attribute("data-md-color-scheme", "slate")
    page.get_by_role("button", name="Switch to light colours").click()
    page.reload()
    expect(page.locator("body")).to_have_attribute("data-md-color-scheme", "default")


def test_the_print_is_a_job_card(browse: Browse, root: str) -> None:
    page = browse(root, viewport=A4, color_scheme="dark").open(ICED)
    page.emulate_media(media="print")
    expect(page.locator(".kb-header")).to_be_hidden()
    expect(page.locator(".kb-jump")).to_be_hidden()
    sign_off = page.locator(".kb-sign-off")
    expect(sign_off.locator("table")).to_be_visible()
    expect(sign_off).to_contain_text("Signature")
    assert (
        page.locator("h1").evaluate(TOP)
        < page.locator(".kb-hazards").evaluate(TOP)
        < page.locator(".kb-glance").evaluate(TOP)
    )
    assert page.locator("#steps").evaluate(TOP) < sign_off.evaluate(TOP)
    expect(page.locator(".kb-write").first).to_be_visible()
    assert page.locator(".kb-page").evaluate("one => getComputedStyle(one).color") == "rgb(0, 0, 0)"
    paper = page.pdf(format="A4")
    assert paper.startswith(b"%PDF")
    assert len(re.findall(rb"/Type\s*/Page\b", paper)) > 1
    page.emulate_media(media="screen")
    expect(sign_off).to_be_hidden()


@pytest.mark.parametrize(("day", "overdue"), [(0, False), (1, True)])
def test_an_overdue_review_is_marked(browse: Browse, root: str, day: int, overdue: bool) -> None:
    page = browse(root, timezone_id="UTC").open(ICED)
    due = page.locator(".kb-state").get_attribute("data-kb-due")
    shown = page.evaluate(
        "([due, days]) => new Date(Date.parse(due + 'T12:00:00Z') + days * 864e5).toISOString()", [due, day]
    )
    page.clock.set_fixed_time(shown)
    page.reload()
    expect(page.locator(".kb-state .kb-badge", has_text="Review overdue")).to_have_count(1 if overdue else 0)


def test_a_page_is_complete_without_scripts(browse: Browse, root: str) -> None:
    page = browse(root, java_script_enabled=False).open(ICED)
    expect(page.locator("h1")).to_have_text(ICED_TITLE)
    expect(page.locator(".kb-hazards")).to_be_visible()
    answer = page.locator(".kb-step .kb-way[href^='#step-']").first
    anchor = (answer.get_attribute("href") or "")[1:]
    expect(page.locator(f"#{anchor} .kb-instruction").first).to_be_visible()
    answer.click()
    assert page.url.endswith(f"#{anchor}")
    page.locator(".kb-nav a", has_text="Codes").click()
    expect(page.locator("h1")).to_be_visible()
    page.locator(".kb-tiles a").first.click()
    expect(page.locator(".kb-alarm").first).to_be_visible()
