"""A person goes from page to page by the row at the top, and sees one page at a time."""

import pytest
from playwright.sync_api import expect

from tests.browser.page import SLOW, opened

pytestmark = pytest.mark.browser


def framed(page):
    """What is on the screen of all pages that were opened."""
    return page.locator(".framed").locator("visible=true")


def test_the_page_chosen_is_the_only_one_seen_and_fills_the_screen(page, address, errors):
    page.set_viewport_size({"width": 1440, "height": 900})
    opened(page, address)
    for path in ("trees", "years", "weigh", "survey"):
        page.locator(f"#page-{path}").click()
        expect(page.locator(f".framed.of-{path}")).to_be_visible(timeout=SLOW)
        expect(framed(page)).to_have_count(1, timeout=SLOW)
        assert framed(page).bounding_box()["height"] > 600
    assert not errors
