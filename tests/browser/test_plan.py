"""A person at the Plan page: orders, places, drags, blocks, compares, takes the calendar home."""

from pathlib import Path

import icalendar
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from tests.browser.page import SLOW
from tests.browser.test_weigh import DESK, PHONE

pytestmark = pytest.mark.browser
PLACED = "proven: no other choice"


def opened(page, address):
    page.goto(f"{address}?page=plan")
    page.wait_for_function("window.Bokeh?.documents[0]?.is_idle === true", timeout=SLOW)
    expect(page.locator("#press-order-place")).to_be_enabled(timeout=SLOW)


def placed(page):
    """A small order, made by the buttons, at the survey's pegs."""
    drop = page.get_by_role("button", name="Remove the line")
    while (left := drop.count()) > 2:
        drop.last.click()
        expect(drop).to_have_count(left - 1, timeout=SLOW)
    page.get_by_text("Budget, bees, picking, pegs").click()
    page.get_by_label("At the survey's pegs only").check()
    page.locator("#press-order-place").click()
    expect(page.get_by_text(PLACED)).to_be_visible(timeout=2 * SLOW)


def violations(page):
    expect(page.locator(".doing")).to_have_count(0, timeout=SLOW)  # it fades in
    found = Axe().run(page).response["violations"]
    return [(one["id"], [node["target"] for node in one["nodes"]]) for one in found]


def middle(page, tree):
    box = page.locator(f"g.tree[data-tree='{tree}'] .crown").first.bounding_box()
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def dragged_and_put_back(page):
    x, y = middle(page, 1)
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x - 30, y + 25, steps=6)
    tip = page.locator(".tip output")
    expect(tip).to_contain_text(":", timeout=SLOW)  # said while it is still held
    page.mouse.up()
    page.get_by_role("button", name="Put it back").click(timeout=SLOW)
    expect(page.locator(".tip")).to_be_hidden(timeout=SLOW)


def test_an_order_is_placed_dragged_blocked_and_taken_home(page, address, errors, outside):
    page.set_viewport_size(DESK)
    opened(page, address)
    placed(page)
    assert not violations(page)

    dragged_and_put_back(page)
    page.mouse.click(*middle(page, 1))
    expect(page.get_by_text("stop digging").first).to_be_visible(timeout=SLOW)
    page.get_by_role("button", name="Block this hole").click()
    expect(page.get_by_role("heading", name="What changed")).to_be_visible(timeout=SLOW)
    expect(page.get_by_text("moves").first).to_be_visible()

    page.get_by_role("tab", name="Calendar").click()
    with page.expect_download(timeout=SLOW) as download:
        page.get_by_role("button", name="Download calendar.ics").click(timeout=SLOW)
    calendar = icalendar.Calendar.from_ical(Path(download.value.path()).read_bytes())
    assert any("Order" in str(event["summary"]) for event in calendar.walk("VEVENT"))
    assert not violations(page)

    trees = page.locator("g.tree").count()
    page.reload()
    page.wait_for_function("window.Bokeh?.documents[0]?.is_idle === true", timeout=SLOW)
    expect(page.locator("g.tree")).to_have_count(trees, timeout=SLOW)
    expect(page.get_by_role("heading", name="Blocked holes")).to_be_visible(timeout=SLOW)
    assert not errors
    assert not outside()


def test_the_plan_works_by_keys_on_a_phones_screen(page, address, errors):
    page.set_viewport_size(PHONE)
    opened(page, address)
    placed(page)
    sheet = page.get_by_role("application", name="Map of the plan")
    sheet.focus()
    page.keyboard.press("PageDown")
    expect(page.get_by_role("heading", name="Something is in the way?")).to_be_visible(timeout=SLOW)
    page.keyboard.press("Shift+ArrowLeft")
    expect(page.locator(".tip output")).to_contain_text(":", timeout=SLOW)
    page.keyboard.press("Escape")
    expect(page.locator(".tip")).to_be_hidden(timeout=SLOW)
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    assert not violations(page)
    assert not errors
