"""A person loads the page anew while the app is at work: what was kept is there, all of it."""

import pytest
from playwright.sync_api import expect

from tests.browser.page import SLOW
from tests.browser.test_plan import opened, placed
from tests.browser.test_weigh import DESK

pytestmark = pytest.mark.browser


def test_a_reload_in_the_midst_of_placing_finds_order_and_plan_and_goes_on(page, address, errors):
    page.set_viewport_size(DESK)
    opened(page, address)
    lines = page.get_by_role("button", name="Remove the line")
    trees = page.locator("g.tree")
    expect(lines.first).to_be_visible(timeout=SLOW)
    asked, standing = lines.count(), trees.count()
    lines.last.click()
    expect(lines).to_have_count(asked - 1, timeout=SLOW)
    page.locator("#press-order-place").click()
    expect(page.locator(".doing")).to_contain_text("Placing", timeout=SLOW)
    page.reload()
    page.wait_for_function("window.Bokeh?.documents[0]?.is_idle === true", timeout=SLOW)
    expect(page.locator("#press-order-place")).to_be_enabled(timeout=SLOW)
    expect(page.locator(".doing")).to_have_count(0, timeout=SLOW)
    expect(lines).to_have_count(asked - 1, timeout=SLOW)
    expect(trees).to_have_count(standing, timeout=SLOW)
    placed(page)
    assert not errors
