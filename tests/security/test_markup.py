"""What a person wrote is shown as text: on every page, in every tab, under the pointer."""

from urllib.parse import urlencode

import pytest
from playwright.sync_api import expect

from dashboard.book import PAGES
from tests.browser.page import SLOW
from tests.browser.room import Room
from tests.security.hostile import MARKUP
from tests.security.walk import Walk, seen

pytestmark = [pytest.mark.browser, pytest.mark.slow]
GROUP = "<struck-by onclick=window.struck=1>"
WORDS = ("page", "weights", "trade_off", "place", "option", "layer", "moment", "curve.spacing")


def test_names_and_notes_are_text_on_every_page_and_under_the_pointer(page, app, outside, errors):
    walk = Walk(page, f"http://{app.host}/")
    for one in PAGES:
        walk.open(one.path)
    assert walk.struck == []
    assert walk.dialogs == []
    assert outside() == []
    assert errors == []
    assert all("<struck-by>" in words for words in walk.words.values())


def test_a_link_of_ill_will_is_answered_in_text(page, app, outside, errors):
    asked = urlencode(dict.fromkeys(WORDS, MARKUP))
    walk = Walk(page, f"http://{app.host}/?{asked}")
    walk.look("link")
    assert walk.struck == []
    assert walk.dialogs == []
    assert outside() == []
    assert errors == []
    assert "left out" in walk.words["link"]
    assert "onerror=window.struck=1" in walk.words["link"]


def test_a_groups_name_is_text_on_phone_wall_and_the_teachers_page(browser, app):
    room = Room(browser, f"http://{app.host}/")
    wall, phone = room.wall(), room.phone(GROUP)
    phone.get_by_role("button", name="Send").click()
    expect(phone.locator("#sent")).to_contain_text("Sent at")
    expect(wall.locator(".names")).to_contain_text(GROUP, timeout=SLOW)
    expect(room.teacher.locator("body")).to_contain_text(GROUP, timeout=SLOW)
    before = [seen(one) for one in (phone, wall, room.teacher)]
    room.press("Reveal")
    expect(wall.locator("caption")).to_contain_text("own weights choose", timeout=SLOW)
    expect(room.teacher.locator("caption")).to_contain_text("own weights choose", timeout=SLOW)
    after = [seen(one) for one in (phone, wall, room.teacher)]
    room.leave()
    assert [struck for struck, _ in before + after] == [[]] * 6
    assert all(GROUP in words for _, words in before[1:])
