"""A person looks for a tree: filters, opens a card, lists it, orders it, adds one of their own."""

from pathlib import Path

import axe_playwright_python
import pytest
from playwright.sync_api import expect

from tests.browser.page import SLOW

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
  return axe.run(found(document, "trees")[0]).then((all) => all.violations.map(
    (one) => `${one.id}: ${one.nodes[0].html.slice(0, 160)}`))
}
"""


def trees(page, address):
    page.goto(f"{address}?page=trees")
    page.wait_for_function("window.Bokeh?.documents[0]?.is_idle === true", timeout=SLOW)
    expect(found(page)).to_contain_text("trees", timeout=SLOW)
    return page


def found(page):
    return page.locator("p.found")


def search(page, text):
    """Search, and wait until the table has followed."""
    before = found(page).inner_text()
    page.get_by_label("Search").fill(text)
    expect(found(page)).not_to_have_text(before, timeout=SLOW)


def panel(page, name):
    tab = page.locator(f"#press-tabs-{name}")
    tab.click()
    expect(tab).to_have_attribute("aria-pressed", "true", timeout=SLOW)


def filled(page, name, value):
    field = page.locator(f"[data-name='{name}']").last
    field.fill(value)
    field.blur()


def violations(page):
    page.add_script_tag(path=str(AXE))
    return page.evaluate(VIOLATIONS)


def test_a_small_self_fertile_plum_is_found_listed_and_weighed(page, address, errors):
    page.set_viewport_size(DESK)
    trees(page, address)
    search(page, "plum czar")
    page.get_by_label("Pollen").select_option(label="self-fertile")
    page.get_by_label("Height up to").fill("3.5")
    expect(found(page)).not_to_contain_text("1041 of", timeout=SLOW)
    name = page.locator("button.name[id^='open-european_plum']").last
    expect(name).to_be_visible(timeout=SLOW)
    label = name.inner_text()
    name.click()
    expect(page.get_by_role("heading", name=label)).to_be_visible(timeout=SLOW)
    expect(page.get_by_role("img", name="beside a person of 1.7 m")).to_be_visible()
    page.get_by_role("button", name="Add to the short list").click()
    expect(page.get_by_role("status").filter(has_text="Added")).to_contain_text(label, timeout=SLOW)
    page.get_by_role("button", name="See it on Weigh").click()
    expect(page.get_by_text(label).first).to_be_visible(timeout=SLOW)
    trees(page, address)
    expect(page.get_by_role("button", name=f"Remove {label}", exact=True)).to_be_visible(
        timeout=SLOW
    )
    assert not errors


def test_the_focus_stays_where_a_tree_was_added(page, address):
    page.set_viewport_size(DESK)
    trees(page, address)
    search(page, "medlar nottingham")
    add = page.locator("button[id^='list-medlar']").first
    expect(add).to_be_visible(timeout=SLOW)
    ident = add.get_attribute("id")
    add.focus()
    page.keyboard.press("Enter")
    again = page.locator(f"[id='{ident}']")
    expect(again).to_have_text("Remove", timeout=SLOW)
    expect(again).to_be_focused(timeout=SLOW)


def test_an_order_is_made_with_steppers_and_is_there_after_a_reload(page, address):
    page.set_viewport_size(DESK)
    trees(page, address)
    panel(page, "order")
    page.locator("[data-name=wish]").select_option(label="any walnut")
    page.get_by_role("button", name="Add the line").click()
    more = page.get_by_role("button", name="One more any walnut")
    count = page.locator("li", has=more).locator("output")
    expect(count).to_have_text("1", timeout=SLOW)
    more.click()
    expect(count).to_have_text("2", timeout=SLOW)
    trees(page, address)
    panel(page, "order")
    expect(count).to_have_text("2", timeout=SLOW)
    page.get_by_role("button", name="One fewer any walnut").click()
    expect(count).to_have_text("1", timeout=SLOW)
    page.get_by_role("button", name="Take back").click()
    expect(count).to_have_text("2", timeout=SLOW)


def test_a_cultivar_of_ones_own_is_added_with_its_source(page, address, errors):
    page.set_viewport_size(DESK)
    trees(page, address)
    panel(page, "own")
    page.get_by_role("button", name="Add to the catalogue").click()
    expect(page.get_by_text("to mend before it can be added")).to_be_visible(timeout=SLOW)
    page.locator("#field-own-species").select_option("apple")
    filled(page, "name", "Invented Russet")
    page.locator("#field-own-use").select_option("dessert")
    page.locator("#field-own-self-fertile, #field-own-self_fertile").select_option("no")
    filled(page, "source", "a label invented for a test")
    page.locator("#field-own-status").select_option("memory")
    expect(page.get_by_text("to mend before it can be added")).to_be_hidden(timeout=SLOW)
    page.get_by_role("button", name="Add to the catalogue").click()
    own = page.locator("button.name", has_text="Invented Russet on M9")
    expect(own).to_be_visible(timeout=2 * SLOW)
    own.click()
    expect(page.get_by_text("a label invented for a test").first).to_be_visible(timeout=SLOW)
    trees(page, address)
    search(page, "invented russet")
    expect(page.get_by_text("your own").first).to_be_visible(timeout=SLOW)
    assert not errors


def test_on_a_phone_a_card_covers_the_list_and_gives_it_back(browser, address):
    context = browser.new_context(viewport=PHONE, has_touch=True, is_mobile=True)
    page = trees(context.new_page(), address)
    search(page, "quince vranja")
    page.locator("button.name[id^='open-quince']").first.tap()
    expect(page.get_by_role("heading", name="Vranja on")).to_be_visible(timeout=SLOW)
    expect(page.get_by_label("Search")).to_be_hidden(timeout=SLOW)
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    page.get_by_role("button", name="All trees").tap()
    expect(page.get_by_label("Search")).to_be_visible(timeout=SLOW)
    context.close()


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
def test_axe_finds_nothing_to_mend(page, address, size):
    page.set_viewport_size(size)
    trees(page, address)
    search(page, "apple M9")
    for number in range(2):
        press = page.locator("button[id^='compare-']").nth(number)
        press.click()
        expect(press).to_have_attribute("aria-pressed", "true", timeout=SLOW)
    assert violations(page) == []
    for name in ("card", "compare", "order", "own", "list"):
        panel(page, name)
        assert violations(page) == [], name
