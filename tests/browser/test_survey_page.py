"""A person pencils on the plan: draws, moves, takes back, tapes, judges, and finds it again."""

from pathlib import Path

import axe_playwright_python
import pytest
from playwright.sync_api import expect

from tests.browser.page import SLOW, opened, picture, sentence

pytestmark = pytest.mark.browser
PHONE = {"width": 390, "height": 844}
DESK = {"width": 1440, "height": 900}
AXE = Path(axe_playwright_python.__file__).parent / "axe.min.js"
# axe looks at what the page itself shows; the frame round all pages has its own tests.
VIOLATIONS = """
() => {
  const found = (root, name) => [...root.querySelectorAll("*")].flatMap((one) => [
    ...(one.classList?.contains(name) ? [one] : []),
    ...(one.shadowRoot ? found(one.shadowRoot, name) : []),
  ])
  return axe.run(found(document, "survey")[0]).then((all) => all.violations.map(
    (one) => `${one.id}: ${one.nodes[0].html.slice(0, 160)}`))
}
"""


def survey(page, address):
    page.goto(f"{address}?page=survey")
    page.wait_for_function("window.Bokeh?.documents[0]?.is_idle === true", timeout=SLOW)
    expect(plan(page)).to_be_visible(timeout=SLOW)
    expect(said(page)).to_contain_text("Tap a feature", timeout=SLOW)
    return page


def plan(page):
    return page.locator("svg[role=application]")


def said(page):
    return page.locator("output.said")


def at(page, across, down):
    box = plan(page).bounding_box()
    return box["x"] + across * box["width"], box["y"] + down * box["height"]


def filled(page, name, value):
    field = page.locator(f"[data-name='{name}']")
    field.fill(value)
    field.blur()


def state(page):
    return page.locator(".head .form p").first


def corners(page):
    return page.locator("textarea[data-name=corners]")


def tapped(page, count, across, down):
    """A tap, again where the browser lost the first one."""
    while page.locator(".handle").count() < count:
        page.touchscreen.tap(*at(page, across, down))
        page.wait_for_timeout(200)


def drawn_tree(page, across, down):
    page.locator("#plan-tool").select_option("neighbour_tree")
    expect(said(page)).to_contain_text("tap where it stands", timeout=SLOW)
    page.mouse.click(*at(page, across, down))
    expect(page.get_by_role("heading", name="Neighbour tree")).to_be_visible(timeout=SLOW)
    for name, value in {"species": "oak", "height_m": "18", "crown_m": "14"}.items():
        filled(page, name, value)
    expect(state(page)).to_contain_text("Not judged yet", timeout=SLOW)


def violations(page):
    page.add_script_tag(path=str(AXE))
    return page.evaluate(VIOLATIONS)


def test_a_tree_drawn_and_judged_changes_the_scores_round_it(page, address, errors):
    page.set_viewport_size(DESK)
    opened(page, address)
    before = picture(page)
    survey(page, address)
    drawn_tree(page, 0.3, 0.75)
    page.get_by_role("button", name="Judge this survey").click()
    expect(state(page)).to_contain_text("Judged", timeout=3 * SLOW)
    page.locator("#page-weigh").click()
    expect(sentence(page)).not_to_be_empty(timeout=SLOW)
    page.wait_for_function(
        "[...Bokeh.documents[0]._all_models.values()].some((one) => one.name === 'map score')",
        timeout=SLOW,
    )
    after = picture(page)
    assert ((before != after) & (before == before)).sum() > 50  # noqa: PLR0124 -- NaN
    assert not errors


def test_a_feature_is_moved_by_drag_and_by_keys_and_put_back(page, address, errors):
    page.set_viewport_size(DESK)
    survey(page, address)
    drawn_tree(page, 0.3, 0.75)
    start = corners(page).input_value()
    page.mouse.move(*at(page, 0.3, 0.75))
    page.mouse.down()
    page.mouse.move(*at(page, 0.35, 0.7), steps=6)
    page.mouse.up()
    expect(corners(page)).not_to_have_value(start, timeout=SLOW)
    moved = corners(page).input_value()
    plan(page).focus()
    page.keyboard.press("ArrowRight")
    expect(corners(page)).not_to_have_value(moved, timeout=SLOW)
    nudged = float(corners(page).input_value().split(",")[0])
    assert nudged == pytest.approx(float(moved.split(",")[0]) + 0.5)
    page.locator("#plan-undo").click()
    expect(corners(page)).to_have_value(moved, timeout=SLOW)
    page.locator("#plan-undo").click()
    expect(corners(page)).to_have_value(start, timeout=SLOW)
    page.locator("#plan-redo").click()
    expect(corners(page)).to_have_value(moved, timeout=SLOW)
    assert not errors


def test_an_outline_is_measured_while_it_is_drawn_and_escape_gives_it_up(page, address):
    page.set_viewport_size(DESK)
    survey(page, address)
    page.locator("#plan-tool").select_option("building")
    expect(said(page)).to_contain_text("then Finish", timeout=SLOW)
    for spot in ((0.3, 0.7), (0.4, 0.7), (0.4, 0.8)):
        page.mouse.click(*at(page, *spot))
    expect(said(page)).to_contain_text("area", timeout=SLOW)
    page.locator("#plan-finish").click()
    expect(page.get_by_role("heading", name="Building")).to_be_visible(timeout=SLOW)
    assert len(corners(page).input_value().splitlines()) == 3
    expect(page.get_by_text("still needed")).to_be_visible()
    page.locator("#plan-tool").select_option("hedge")
    expect(said(page)).to_contain_text("then Finish", timeout=SLOW)
    page.mouse.click(*at(page, 0.5, 0.5))
    plan(page).focus()
    page.keyboard.press("Escape")
    page.keyboard.press("Escape")
    expect(page.locator("#plan-tool")).to_have_value("", timeout=SLOW)


def test_taped_pegs_are_found_again_by_a_reload(page, address):
    page.set_viewport_size(DESK)
    survey(page, address)
    page.get_by_role("button", name="Tapes").click()
    filled(page, "text", "Plum, Hollow, 12, Screen, 12, left\nBad, Hollow, 1, Screen, 1, left")
    expect(page.get_by_text("do not meet")).to_be_visible(timeout=SLOW)
    expect(page.get_by_role("table", name="Positions")).to_contain_text("Plum")
    page.get_by_role("button", name="Add as pegs").click()
    expect(state(page)).to_contain_text("Not judged yet", timeout=SLOW)
    survey(page, address)
    page.get_by_role("button", name="List").click()
    peg = page.get_by_role("button", name="Plum")
    expect(peg).to_be_visible(timeout=SLOW)
    peg.click()
    expect(page.locator("[data-name=name]")).to_have_value("Plum", timeout=SLOW)


def test_a_line_is_drawn_by_keys_alone(page, address):
    page.set_viewport_size(DESK)
    survey(page, address)
    page.locator("#plan-tool").select_option("wall")
    expect(said(page)).to_contain_text("then Finish", timeout=SLOW)
    plan(page).focus()
    for key in ("Enter", "Shift+ArrowRight", "Enter", "ArrowUp", "Enter", "Enter"):
        page.keyboard.press(key)
    expect(page.get_by_role("heading", name="Wall", exact=True)).to_be_visible(timeout=SLOW)
    assert len(corners(page).input_value().splitlines()) == 3


def test_on_a_phone_the_plan_comes_first_and_fingers_draw(browser, address):
    context = browser.new_context(viewport=PHONE, has_touch=True, is_mobile=True)
    page = survey(context.new_page(), address)
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    assert plan(page).bounding_box()["y"] < PHONE["height"] / 3
    page.locator("#plan-tool").select_option("path")
    expect(said(page)).to_contain_text("then Finish", timeout=SLOW)
    for count, spot in enumerate(((0.4, 0.6), (0.6, 0.7)), start=1):
        tapped(page, count, *spot)
    page.locator("#plan-finish").tap()
    expect(page.get_by_role("heading", name="Path", exact=True)).to_be_visible(timeout=SLOW)
    context.close()


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
def test_axe_finds_nothing_to_mend(page, address, size):
    page.set_viewport_size(size)
    survey(page, address)
    for panel in ("list", "site", "tapes", "picture", "files", "new", "feature"):
        tab = page.locator(f"#press-head-{panel}")
        tab.click()
        expect(tab).to_have_attribute("aria-pressed", "true", timeout=SLOW)
        assert violations(page) == [], panel
    drawn_tree(page, 0.3, 0.75)
    assert violations(page) == []
