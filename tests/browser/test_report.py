"""A person at the page of the report: types a name, leaves a part out, takes the files home."""

from io import BytesIO
from pathlib import Path

import pypdf
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from tests.browser.page import SLOW

pytestmark = pytest.mark.browser
PHONE = {"width": 390, "height": 844}
DESK = {"width": 1440, "height": 900}


def opened(page, address, size=DESK):
    page.set_viewport_size(size)
    page.goto(f"{address}?page=report")
    expect(paper(page).locator("h1")).to_contain_text("Sorrelhay", timeout=SLOW)
    return page


def paper(page):
    return page.frame_locator("iframe")


def saved(page, name):
    with page.expect_download(timeout=SLOW) as waited:
        page.get_by_role("button", name=name, exact=True).click()
    return Path(waited.value.path()).read_bytes()


def test_names_are_typed_a_part_left_out_and_both_files_saved(page, address, errors, outside):
    opened(page, address)
    page.get_by_label("Prepared for").fill("The school <b>")
    page.get_by_label("Prepared for").press("Enter")
    expect(paper(page).locator("header")).to_contain_text("The school <b>", timeout=SLOW)
    for part in ("Calendar", "Figures of the trees, and sources"):
        page.get_by_label(part).uncheck()
    expect(paper(page).locator("footer")).to_contain_text("Left out", timeout=SLOW)
    expect(paper(page).locator("#calendar")).to_have_count(0)
    html = saved(page, "Save as HTML").decode()
    assert "The school &lt;b&gt;" in html
    printed = pypdf.PdfReader(BytesIO(saved(page, "Save as PDF")))
    assert "The school <b>" in printed.pages[0].extract_text()
    page.reload()
    expect(paper(page).locator("header")).to_contain_text("The school <b>", timeout=SLOW)
    assert not errors
    assert not outside()


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
def test_the_page_is_for_everyone(page, address, size):
    opened(page, address, size)
    assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
def test_the_document_by_itself_is_for_everyone(page, address, size, tmp_path):
    opened(page, address)
    file = tmp_path / "report.html"
    file.write_bytes(saved(page, "Save as HTML"))
    page.set_viewport_size(size)
    # The document lets no script run; the tester's own has to be let in.
    text = file.read_text(encoding="utf-8").replace("default-src 'none'; ", "")
    file.write_text(text, encoding="utf-8")
    page.goto(file.as_uri())
    assert page.evaluate("document.documentElement.scrollWidth") <= size["width"]
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
