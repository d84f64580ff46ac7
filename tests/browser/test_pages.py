"""A person goes from page to page by the row at the top, and sees one page at a time."""

import pytest
from playwright.sync_api import expect

from dashboard.book import PAGES
from tests.browser.page import SLOW, opened

pytestmark = pytest.mark.browser
SIZES = {"desk": (1440, 900), "phone": (390, 844)}


def framed(page):
    """What is on the screen of all pages that were opened."""
    return page.locator(".framed").locator("visible=true")


@pytest.mark.parametrize("size", SIZES.values(), ids=SIZES)
def test_the_page_chosen_is_the_only_one_seen_and_fills_the_screen(page, address, errors, size):
    page.set_viewport_size({"width": size[0], "height": size[1]})
    opened(page, address)
    for one in [*PAGES, PAGES[0]]:
        page.locator(f"#page-{one.path}").click()
        expect(page.locator(f"#page-{one.path}")).to_have_attribute(
            "aria-current", "page", timeout=SLOW
        )
        expect(page.locator(f".framed.of-{one.path}")).to_be_visible(timeout=SLOW)
        expect(framed(page)).to_have_count(1, timeout=SLOW)
        assert framed(page).bounding_box()["height"] > 0.8 * (size[1] - 100)
    assert not errors
