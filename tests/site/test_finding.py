"""The search as a technician uses it: results, filters, keyboard, recent procedures, and the way on from nothing."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import FrameLocator, Locator, Page, expect

from tests.site.conftest import Browsing
from tests.site.needs import AXE, node_file
from tests.site.test_html import AXE_RULES, CONTROLS, SMALLEST_CONTROL

Browse = Callable[..., Browsing]
ICED = "Air cooler iced up, cold room too warm"
LIP = "Dock leveller lip does not extend"
TABLET = {"width": 800, "height": 1280}
TOO_SMALL_TARGETS = """
() => [...document.querySelectorAll('.kb-result, .kb-search button, .kb-recent button, .kb-recent a')]
  .filter(one => one.checkVisibility() && one.getBoundingClientRect().height < 48)
  .map(one => one.outerHTML.slice(0, 90))
"""
FONT_REFUSED = ".woff2: net::ERR_FAILED"
FONT_COMPLAINTS = ("No 'Access-Control-Allow-Origin' header is present on the requested resource.", "net::ERR_FAILED")
FOCUSED_RESULT = "() => document.activeElement.matches('.kb-result-title') && document.activeElement.textContent"


def search(page: Page | FrameLocator, words: str) -> Locator:
    page.locator("#kb-q").fill(words)
    return page.locator(".kb-result")


def opener(page: Page, name: str) -> Locator:
    return page.get_by_role("button", name=f"{name}:")


def choose(page: Page, filter_name: str, choice: str) -> None:
    opener(page, filter_name).click()
    page.get_by_role("group", name=filter_name).get_by_role("button", name=choice).click()


def status(page: Page | FrameLocator) -> Locator:
    return page.locator(".kb-search-status")


def test_a_result_tells_why_where_how_dangerous_and_how_it_stands(browse: Browse, root: str) -> None:
    page = browse(root).open("index.html#q=block%20of%20ice")
    first = page.locator(".kb-result").first
    expect(first.locator(".kb-result-title")).to_have_text(ICED)
    expect(first.locator("mark").first).to_have_text("block")
    expect(first.locator(".kb-result-facts")).to_contain_text("Air cooler")
    expect(first.locator(".kb-result-facts")).to_contain_text("Approved")
    hazards = first.get_by_role("list", name="Hazards")
    expect(hazards.get_by_role("listitem").first).to_contain_text("DANGER")
    sign = hazards.locator("use").first
    assert page.locator(sign.get_attribute("href") or "none").count() == 1


def test_what_is_not_released_says_so(browse: Browse, root: str) -> None:
    page = browse(root).open("index.html#q=case%20erector%20low%20air")
    expect(page.locator(".kb-result").first.locator(".kb-badge")).to_have_text("In review: not released for work")


@pytest.mark.parametrize(("day", "words"), [("2026-12-01", "Approved"), ("2099-01-01", "Review overdue since")])
def test_an_overdue_review_is_told(browse: Browse, folder_root: str, day: str, words: str) -> None:
    browsing = browse(folder_root, timezone_id="UTC")
    browsing.context.clock.set_fixed_time(f"{day}T12:00:00Z")
    page = browsing.open("index.html#q=block%20of%20ice")
    expect(page.locator(".kb-result").first.locator(".kb-result-facts")).to_contain_text(words)


def test_a_word_that_was_corrected_is_told_and_marked(browse: Browse, folder_root: str) -> None:
    page = browse(folder_root).open("index.html#q=condensor")
    expect(page.locator("[data-kb-line]")).to_have_text("“condensor” read as condenser")
    expect(page.locator(".kb-result mark.kb-taken").first).to_have_text("condenser", ignore_case=True)


def test_filters_narrow_down_and_lead_back(browse: Browse, root: str) -> None:
    page = browse(root).open("index.html")
    found = search(page, "ice")
    expect(status(page)).to_contain_text("results")
    every = found.count()
    choose(page, "Equipment", "Hydraulic dock leveller")
    expect(status(page)).to_have_text("1 result for Hydraulic dock leveller")
    expect(found.locator(".kb-result-title")).to_have_text([LIP])
    expect(opener(page, "Equipment")).to_be_focused()
    page.reload()
    expect(found.locator(".kb-result-title")).to_have_text([LIP])
    page.go_back()
    expect(found).to_have_count(every)
    page.go_forward()
    expect(found).to_have_count(1)
    page.get_by_role("button", name="Clear filters").click()
    expect(found).to_have_count(every)


def test_choices_say_how_many_results_they_leave(browse: Browse, folder_root: str) -> None:
    page = browse(folder_root).open("index.html#q=ice")
    page.locator(".kb-result").first.wait_for()
    for name in ("Equipment", "Display"):
        opener(page, name).click()
        choices = page.get_by_role("group", name=name).get_by_role("button")
        counts = [int(one) for one in choices.locator("[data-kb-number]:visible").all_inner_texts()]
        assert counts
        for place, count in enumerate(counts):
            choices.nth(place + 1).click()
            expect(page.locator(".kb-result")).to_have_count(count)
            opener(page, name).click()
        choices.first.click()


def test_a_filter_that_leaves_nothing_shows_what_is_elsewhere(browse: Browse, folder_root: str) -> None:
    page = browse(folder_root).open("index.html?q=block+of+ice&family=battery-charger")
    expect(status(page)).to_contain_text("narrowed to Forklift battery charger")
    page.get_by_role("button", name="elsewhere").click()
    expect(page.locator(".kb-result-title").first).to_have_text(ICED)


def test_a_family_page_leads_to_its_search(browse: Browse, root: str) -> None:
    page = browse(root).open("family/air-cooler.html")
    page.get_by_role("link", name="Search in this equipment").click()
    expect(opener(page, "Equipment")).to_contain_text("Air cooler")
    page.get_by_role("link", name="All of Air cooler").click()
    expect(page.locator("h1")).to_have_text("Air cooler")
    page.locator(".kb-nav a", has_text="Search").click()
    search(page, "ice").first.wait_for()
    expect(status(page)).to_contain_text("Where several fit equally, Air cooler comes first.")


def test_the_keyboard_is_enough(browse: Browse, root: str) -> None:
    page = browse(root).open("index.html")
    search(page, "ice").nth(1).wait_for()
    titles = page.locator(".kb-result-title").all_inner_texts()
    for key, expected in (("ArrowDown", titles[0]), ("ArrowDown", titles[1]), ("ArrowUp", titles[0])):
        page.keyboard.press(key)
        assert page.evaluate(FOCUSED_RESULT) == expected
    page.keyboard.press("Escape")
    expect(page.locator("#kb-q")).to_be_focused()
    expect(page.locator("#kb-q")).to_have_value("ice")
    opener(page, "Equipment").focus()
    for key in ("Enter", "Tab", "ArrowDown", "Escape"):
        page.keyboard.press(key)
    expect(opener(page, "Equipment")).to_be_focused()
    expect(opener(page, "Equipment")).to_have_attribute("aria-expanded", "false")
    page.locator("#kb-q").focus()
    page.keyboard.press("Escape")
    expect(page.locator("#kb-q")).to_have_value("")
    expect(page.locator(".kb-result")).to_have_count(0)


def test_nothing_found_offers_near_words_and_a_call(browse: Browse, folder_root: str) -> None:
    page = browse(folder_root).open("index.html#q=compartment")
    expect(status(page)).to_contain_text("Nothing found for “compartment”")
    expect(page.locator(".kb-call")).to_contain_text("Maintenance lead on duty")
    page.get_by_role("group", name="Did you mean").get_by_role("button", name="compressor").click()
    expect(page.locator("#kb-q")).to_have_value("compressor")
    expect(page.locator(".kb-result").first).to_be_visible()
    expect(page.locator(".kb-call")).to_be_hidden()


def test_procedures_opened_last_are_kept_on_the_tablet(browse: Browse, root: str) -> None:
    browsing = browse(root)
    page = browsing.open("index.html")
    recent = page.get_by_role("region", name="Opened last on this tablet")
    expect(recent).to_have_count(0)
    for name in ("cooler-iced-up", "leveller-lip-not-out", "cooler-iced-up"):
        page.goto(f"{root}procedure/{name}.html")
    page.goto(f"{root}index.html")
    expect(recent.get_by_role("link")).to_have_text([ICED, LIP])
    recent.get_by_role("link").last.click()
    expect(page.locator("h1")).to_have_text(LIP)
    page.wait_for_load_state()
    page.go_back()
    expect(recent.get_by_role("link")).to_have_text([LIP, ICED])
    recent.get_by_role("button", name="Clear this list").click()
    expect(recent).to_have_count(0)
    page.reload()
    expect(recent).to_have_count(0)


def test_a_frame_that_may_keep_nothing_can_be_searched(browse: Browse, server: str) -> None:
    browsing = browse(server)
    page = browsing.open("help.html")
    page.evaluate(
        'document.body.innerHTML = \'<iframe sandbox="allow-scripts allow-forms" src="index.html" '
        'style="width: 100%; height: 800px"></iframe>\''
    )
    frame = page.frame_locator("iframe")
    search(frame, "ice").first.click()
    expect(frame.locator("h1")).to_have_text(ICED)
    frame.locator(".kb-nav a", has_text="Search").click()
    expect(frame.locator("#kb-q")).to_be_visible()
    expect(frame.locator("[data-kb-recent]")).to_be_hidden()
    assert page.url.endswith("help.html")
    page.close()
    browsing.failed = [one for one in browsing.failed if not one.endswith(FONT_REFUSED)]
    browsing.said = [one for one in browsing.said if not one.endswith(FONT_COMPLAINTS)]


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_barrier_stands_before_results_filters_and_near_misses(
    browse: Browse, folder_root: str, scheme: str
) -> None:
    browsing = browse(folder_root, color_scheme=scheme, viewport=TABLET)
    browsing.open("procedure/cooler-iced-up.html").close()
    page = browsing.open("index.html")
    page.add_script_tag(path=str(node_file(AXE)))
    opener(page, "Equipment").click()
    for words in ("condensor", "compartment"):
        search(page, words)
        expect(status(page)).to_contain_text(("result", "Nothing")[words == "compartment"])
        result = page.evaluate("rules => axe.run(document, rules)", AXE_RULES)
        assert [(one["id"], [node["html"][:99] for node in one["nodes"]]) for one in result["violations"]] == []
        assert page.evaluate(TOO_SMALL_TARGETS) == []
        assert page.evaluate(CONTROLS % SMALLEST_CONTROL) == []
