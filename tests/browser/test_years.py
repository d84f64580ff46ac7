"""A person at the page of years: the trees grow, the words follow, on a desk and a phone."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from tests.browser.page import SLOW, columns

pytestmark = pytest.mark.browser
PHONE = {"width": 390, "height": 844}
DESK = {"width": 1440, "height": 900}


def opened(page, address, size=DESK, words="year=0"):
    page.set_viewport_size(size)
    page.goto(f"{address}?page=years&{words}")
    page.wait_for_function("window.Bokeh?.documents[0]?.is_idle === true", timeout=SLOW)
    expect(sentence(page)).to_contain_text("Year", timeout=SLOW)
    return page


def sentence(page):
    return page.locator("p.first")


def slider(page):
    return page.locator("#years-slider")


def crowns(page):
    return columns(page, "years crowns")["radius"]


def test_the_slider_of_years_grows_the_crowns_and_changes_the_sentence(page, address, errors):
    opened(page, address)
    whips = crowns(page)
    assert max(whips) < 0.5
    slider(page).fill("12")
    expect(sentence(page)).to_contain_text("Year 12", timeout=SLOW)
    assert min(crowns(page)) > 1
    expect(page.locator(".seen h2")).to_contain_text("year 12")
    expect(page.locator("table caption")).to_contain_text("year 12")
    slider(page).press("ArrowRight")
    expect(sentence(page)).to_contain_text("Year 13", timeout=SLOW)
    assert not errors


def test_the_years_play_and_pause(page, address):
    opened(page, address)
    page.get_by_role("button", name="Play").press("Enter")
    pause = page.get_by_role("button", name="Pause")
    expect(pause).to_be_visible()
    expect(sentence(page)).not_to_contain_text("Year 0", timeout=SLOW)
    pause.press("Enter")
    expect(page.get_by_role("button", name="Play")).to_be_visible()
    year = slider(page).input_value()
    assert 0 < int(year) < 30
    expect(sentence(page)).to_contain_text(f"Year {year}:", timeout=SLOW)


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
def test_the_page_is_for_everyone(page, address, size):
    opened(page, address, size, "year=12&trees=leaders")
    assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
