"""A person a year on: reads what to do, types in what was seen, looks at the new place."""

import pytest
from playwright.sync_api import Page, expect

from tests.browser.page import SLOW

pytestmark = pytest.mark.browser
PHONE = {"width": 390, "height": 844}
DESK = {"width": 1440, "height": 900}


def review(page: Page, address: str, size: dict) -> Page:
    page.set_viewport_size(size)
    page.goto(f"{address}?page=review")
    expect(page.locator("article")).to_have_count(5, timeout=2 * SLOW)
    return page


def card(page: Page, name: str):
    return page.locator("article").filter(has_text=name)


def test_what_is_typed_changes_the_card_and_undo_takes_it_back(page, address, errors):
    review(page, address, DESK)
    tree = card(page, "at Middle field")
    expect(tree).not_to_contain_text("Standing water")
    page.get_by_label("Tree or peg").select_option("Middle field")
    page.get_by_label("What", exact=True).select_option("wet_days")
    page.get_by_label("How much [days/yr]").fill("800")
    page.get_by_label("Day, or last day").fill("2027-11-01")
    page.get_by_role("button", name="Add what was seen").press("Enter")
    expect(page.locator("p.fault")).to_contain_text("expected wet_days from 0 to 366", timeout=SLOW)
    page.get_by_label("How much [days/yr]").fill("80")
    page.get_by_role("button", name="Add what was seen").press("Enter")
    expect(tree).to_contain_text("Standing water", timeout=2 * SLOW)
    page.locator(".form").get_by_role("button", name="Undo").press("Enter")
    expect(tree).not_to_contain_text("Standing water", timeout=2 * SLOW)
    assert not errors


def test_on_a_phone_a_card_opens_and_leads_to_weigh_at_the_new_place(page, address):
    review(page, address, PHONE)
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    first = page.locator("article").first
    expect(first).to_contain_text("Move to Screen")
    first.locator("summary").press("Enter")
    expect(first.get_by_role("img").first).to_be_visible()
    expect(first).to_contain_text("network operator")
    last = page.locator("article").last.bounding_box()
    form = page.get_by_label("Tree or peg").bounding_box()
    assert form["y"] > last["y"] + last["height"]
    first.get_by_role("button", name="Weigh Screen").press("Enter")
    expect(page.locator(".verdict p.said")).to_contain_text("Screen", timeout=2 * SLOW)
