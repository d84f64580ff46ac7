"""A vote in a room: a teacher's window, a wall, and phones."""

import re

from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.browser.page import SLOW, settled

DESK = {"width": 1440, "height": 900}
PHONE = {"width": 390, "height": 844}


def opened(page: Page, address: str) -> Page:
    """A page that need not be Weigh, once it listens."""
    page.goto(address)
    return settled(page)


class Room:
    """A teacher's window, a wall, and phones, each a browser of its own."""

    def __init__(self, browser: Browser, address: str) -> None:
        self.browser, self.address = browser, address
        self.asked: list[str] = []
        self.contexts: list[BrowserContext] = []
        self.teacher = self.enter(viewport=DESK)
        opened(self.teacher, f"{address}?page=group")
        self.press("Start a session")
        code = self.teacher.locator(".code")
        expect(code).to_have_text(re.compile(r"^\w{5}$"), timeout=SLOW)
        self.code = code.inner_text()

    def enter(self, **as_one_is: object) -> Page:
        """A page of somebody who was not here yet."""
        self.contexts.append(self.browser.new_context(**as_one_is))
        return self.contexts[-1].new_page()

    def press(self, name: str) -> None:
        """Press a button of the teacher's."""
        self.teacher.get_by_role("button", name=name).click(timeout=SLOW)

    def phone(self, name: str) -> Page:
        """A phone that joined."""
        page = self.enter(viewport=PHONE, has_touch=True, is_mobile=True)
        page.on("request", lambda request: self.asked.append(request.url))
        page.goto(f"{self.address}join?code={self.code}")
        page.get_by_label("A name for your group").fill(name)
        page.get_by_role("button", name="Join").click()
        expect(page.locator("#result")).to_contain_text("With your weights: ")
        return page

    def wall(self) -> Page:
        """The wall view, as the teacher's link opens it."""
        with self.teacher.context.expect_page() as begun:
            self.teacher.get_by_role("link", name="Open the wall view").click()
        return begun.value

    def leave(self) -> None:
        """Close what was opened."""
        for context in self.contexts:
            context.close()
