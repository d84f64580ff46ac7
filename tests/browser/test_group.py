"""A class at its phones: three groups vote, the teacher steers, the wall shows what came of it."""

import csv
from pathlib import Path
from urllib.parse import urlsplit

import axe_playwright_python
import pandas as pd
import pytest
from playwright.sync_api import Page, expect

from tests.browser.page import SLOW, columns
from tests.browser.room import DESK, PHONE, Room, opened

pytestmark = pytest.mark.browser
NAMES = ("Ash", "Birch", "=Cherry()")
AXE = next(Path(axe_playwright_python.__file__).parent.rglob("axe.min.js"))


def faults(page: Page) -> list[str]:
    """What axe-core has against a page."""
    page.evaluate(AXE.read_text(encoding="utf-8"))
    found = page.evaluate("axe.run(document)")["violations"]
    return [f"{one['id']}: {one['nodes'][0]['html'][:120]}" for one in found]


@pytest.fixture
def room(browser, address):
    room = Room(browser, address)
    yield room
    room.leave()


def send(phone: Page, **heights: int) -> None:
    for family, height in heights.items():
        phone.locator(f"#family-{family}").fill(str(height))
    phone.get_by_role("button", name="Send").click()
    expect(phone.locator("#sent")).to_contain_text("Sent at")


def reloaded(phone: Page) -> None:
    """Move a slider, do not send, and reload: the move and the ballot are still there."""
    before = phone.locator("#result").inner_text()
    phone.locator("#family-people").fill("100")
    phone.locator("#family-place").fill("0")
    expect(phone.locator("#result")).not_to_have_text(before)
    phone.reload()
    expect(phone.locator("#family-people")).to_have_value("100")
    expect(phone.locator("#sent")).to_contain_text("Sent at")


def frozen(room: Room, phones: list[Page]) -> None:
    """Freeze the vote: every phone says so, and can send nothing."""
    room.press("Freeze")
    for phone in phones:
        expect(phone.locator("#state")).to_contain_text("Voting is closed", timeout=SLOW)
        expect(phone.get_by_role("button", name="Send")).to_be_disabled()


def revealed(room: Room, phones: list[Page], wall: Page) -> None:
    """Reveal: the wall, the teacher and every phone see what came of it."""
    room.press("Reveal")
    expect(wall.locator("caption")).to_contain_text("own weights choose", timeout=SLOW)
    assert len(columns(wall, "group dots")["x"]) == 3 * (4 + 8)
    for phone in phones:
        expect(phone.locator("main")).to_contain_text("Your weights choose", timeout=SLOW)
    expect(room.teacher.locator("caption")).to_contain_text("own weights choose", timeout=SLOW)
    for page in (wall, phones[1]):
        assert faults(page) == []


def voted_again(room: Room, phones: list[Page], wall: Page) -> None:
    """A second vote of two groups, each of which finds its own first."""
    room.press("Vote again")
    expect(phones[1].locator(".note")).to_contain_text("By your vote before", timeout=SLOW)
    expect(phones[1].locator("#family-room")).to_have_value("95")
    expect(phones[2].locator("#family-people")).to_have_value("95", timeout=SLOW)
    send(phones[1], room=30)
    send(phones[2], people=60)
    stands = room.teacher.get_by_role("status").filter(has_text="2 ballots")
    expect(stands).to_be_visible(timeout=SLOW)
    room.press("Reveal")
    expect(wall.locator("h2", has_text="What the second vote moved")).to_be_visible(timeout=SLOW)
    assert len(columns(wall, "group before")["x"]) == 3 * (4 + 8)


def exported(room: Room) -> Path:
    """The ballots as the teacher saves them."""
    with room.teacher.expect_download() as saved:
        room.press("Ballots as CSV")
    return Path(saved.value.path())


def test_three_phones_vote_twice_and_all_see_what_came_of_it(room):
    wall = room.wall()
    expect(wall.locator(".code")).to_have_text(room.code, timeout=SLOW)
    phones = [room.phone(name) for name in NAMES]
    for phone, name, family in zip(phones, NAMES, ("place", "room", "people"), strict=True):
        send(phone, **{family: 95})
        expect(wall.locator(".names")).to_contain_text(name, timeout=SLOW)
    expect(wall.locator("table")).to_have_count(0)
    reloaded(phones[0])
    frozen(room, phones)
    revealed(room, phones, wall)
    voted_again(room, phones, wall)
    table = exported(room)
    with table.open(encoding="utf-8", newline="") as file:
        groups = [line["group"] for line in csv.DictReader(file)]
    assert sorted(set(groups)) == ["'=Cherry()", "Ash", "Birch"]
    assert pd.read_csv(table)["round"].tolist() == [1, 1, 1, 2, 2]
    own = urlsplit(room.address).netloc
    assert {urlsplit(url).netloc for url in room.asked if not url.startswith("data:")} == {own}


def test_the_phones_page_is_clean_and_works_by_keyboard_alone(room):
    phone = room.phone("Ash")
    assert faults(phone) == []
    phone.locator("#family-place").focus()
    share = phone.locator("[data-of=family-place]")
    before = share.inner_text()
    for _time in range(20):
        phone.keyboard.press("ArrowRight")
    expect(share).not_to_have_text(before)
    phone.keyboard.press("Tab")
    phone.keyboard.press("Enter")
    expect(phone.locator("#factor-sunlight")).to_be_visible()
    assert faults(phone) == []
    small = phone.evaluate(
        """[...document.querySelectorAll("input[type=range], button, summary, label.choice")]
        .filter((one) => one.offsetParent && one.getBoundingClientRect().height < 44)
        .map((one) => one.outerHTML)"""
    )
    assert small == []
    assert phone.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    phone.locator("#group").focus()
    phone.keyboard.press("Enter")
    expect(phone.locator("#sent")).to_contain_text("Sent at")


def test_a_teachers_reload_keeps_the_vote_and_another_window_has_no_controls(room):
    opened(room.teacher, f"{room.address}?page=group")
    expect(room.teacher.locator(".code")).to_have_text(room.code, timeout=SLOW)
    stranger = room.enter(viewport=DESK)
    opened(stranger, f"{room.address}?page=group")
    expect(stranger.get_by_role("button", name="Start a session")).to_be_visible(timeout=SLOW)
    expect(stranger.get_by_role("button", name="Reveal")).to_have_count(0)
