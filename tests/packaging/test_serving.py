"""The page on serving, tried as it is written: nginx, two processes, PostgreSQL."""

import re

import numpy as np
import psycopg
import pytest
from playwright.sync_api import expect

from dashboard.__main__ import _parser
from tests.browser.page import opened, opened_families, picture, slider
from tests.dashboard.postgresql import Missing
from tests.packaging.lowest import ROOT
from tests.packaging.site import PAGE, site

pytestmark = pytest.mark.slow
DESK = {"width": 1440, "height": 900}
PHONE = {"width": 390, "height": 844}
PATIENCE = 120_000  # ms: a stall, not a promise


@pytest.fixture(scope="module")
def running(tmp_path_factory):
    try:
        with site(tmp_path_factory.mktemp("site")) as made:
            yield made
    except Missing as why:
        pytest.skip(str(why))


@pytest.mark.browser
def test_a_teacher_steers_and_a_phone_on_the_other_process_votes(running, browser):
    desk = browser.new_context(viewport=DESK, ignore_https_errors=True)
    desk.set_default_timeout(PATIENCE)
    teacher = desk.new_page()
    opened(teacher, running.address)
    moves_the_map(teacher)

    teacher.goto(f"{running.address}?page=group")
    teacher.get_by_role("button", name="Start a session").click(timeout=PATIENCE)
    code = teacher.locator(".code")
    expect(code).to_have_text(re.compile(r"^\w{5}$"), timeout=PATIENCE)
    address = teacher.locator(".address").inner_text()
    assert address.startswith(f"{running.address}join?")

    way = next(one["value"] for one in desk.cookies() if one["name"] == "treestead_way")
    other = another_way(running, running.process_of(way))
    phone = browser.new_context(viewport=PHONE, ignore_https_errors=True)
    phone.set_default_timeout(PATIENCE)
    phone.add_cookies([{"name": "treestead_way", "value": other, "url": running.address}])
    votes(phone.new_page(), address)
    expect(teacher.get_by_text("1 ballot has arrived.")).to_be_visible(timeout=PATIENCE)

    with psycopg.connect(running.database) as connection:
        kept = connection.execute("SELECT code, name FROM treestead_ballots").fetchall()
    assert kept == [(code.inner_text(), "Ash")]
    for context in (desk, phone):
        context.close()
    stays_with_one_process(running)


def test_every_command_and_setting_on_the_page_is_one_that_there_is():
    told = re.findall(r"^(?:ExecStart=)?[\w/.-]*\btreestead (serve .*)$", PAGE, re.M)
    assert len(told) >= 2
    for command in told:
        words = command.replace("%i", "5010").split()
        assert _parser().parse_args(words).folder.name in ("our-field", "survey")
    code = "".join(path.read_text(encoding="utf-8") for path in (ROOT / "dashboard").rglob("*.py"))
    code += (ROOT / "model" / "ground" / "store.py").read_text(encoding="utf-8")
    named = set(re.findall(r"TREESTEAD_[A-Z]+", PAGE))
    assert len(named) == 4
    assert all(f'"{name}"' in code for name in named)


def moves_the_map(page):
    """A slider's way to the server and the map's way back: by websocket."""
    before = picture(page)
    opened_families(page)
    slider(page, "spacing").fill("60")
    for _ in range(600):
        if not np.allclose(picture(page), before, equal_nan=True):
            return
        page.wait_for_timeout(200)
    raise AssertionError("the map did not follow the slider")


def votes(page, address):
    """A phone joins by the address of the QR picture, and sends."""
    page.goto(address)
    page.get_by_label("A name for your group").fill("Ash")
    page.get_by_role("button", name="Join").click()
    expect(page.locator("#result")).not_to_be_empty(timeout=PATIENCE)
    page.locator("#family-room").fill("80")
    page.get_by_role("button", name="Send").click()
    expect(page.locator("#sent")).to_contain_text("Sent at", timeout=PATIENCE)


def another_way(running, process):
    """A visitor's cookie that leads to the other process."""
    ways = (f"visitor{number}" for number in range(64))
    return next(one for one in ways if running.process_of(one) != process)


def stays_with_one_process(running):
    """Whom nginx sent where: each visitor to one process, both used, and websockets let by."""
    sent = running.sent()
    processes = {way: {to for known, to, *_ in sent if known == way} for way, *_ in sent}
    assert all(len(to) == 1 for to in processes.values()), processes
    assert len(set.union(*processes.values())) == 2
    assert any(status == "101" and path.endswith("/ws") for _, _, status, path in sent)
